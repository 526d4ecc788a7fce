/**
 * Electron's fuses: switches in the program file itself, which nobody who starts the packaged program can turn back.
 * The file is written once, after packing and before signing.
 */
import { flipFuses, FuseV1Options, FuseVersion, getCurrentFuseWire } from '@electron/fuses';

/** In the words of Electron's own list of fuses. */
export const wantedFuses = {
  RunAsNode: false,
  EnableCookieEncryption: true,
  EnableNodeOptionsEnvironmentVariable: false,
  EnableNodeCliInspectArguments: false,
  EnableEmbeddedAsarIntegrityValidation: true,
  OnlyLoadAppFromAsar: true,
  GrantFileProtocolExtraPrivileges: false,
} as const satisfies Partial<Record<keyof typeof FuseV1Options, boolean>>;

export type Fuse = keyof typeof wantedFuses;
export type FuseState = 'on' | 'off' | 'absent';

const names = Object.keys(wantedFuses) as Fuse[];
/** The wire holds one sign for each fuse: "1", "0", or another where this Electron has it no more. */
const states: Readonly<Record<number, FuseState>> = { 0x31: 'on', 0x30: 'off' };

/** What a program file has burnt in. */
export async function readFuses(program: string): Promise<Record<Fuse, FuseState>> {
  const wire: Partial<Record<FuseV1Options, number>> = await getCurrentFuseWire(program);
  const stateOf = (name: Fuse): FuseState => states[wire[FuseV1Options[name]] ?? 0] ?? 'absent';
  return Object.fromEntries(names.map((name) => [name, stateOf(name)])) as Record<Fuse, FuseState>;
}

/** The fuses that are not as they must be, in words. */
export function wrongFuses(read: Readonly<Record<Fuse, FuseState>>): string[] {
  return names.flatMap((name) => {
    const wanted = wantedFuses[name] ? 'on' : 'off';
    return read[name] === wanted ? [] : [`${name} is ${read[name]} and must be ${wanted}`];
  });
}

/** Sets them in a program file and reads them back: a package with a fuse that did not take is none. */
export async function setFuses(program: string): Promise<void> {
  await flipFuses(program, {
    version: FuseVersion.V1,
    ...Object.fromEntries(names.map((name) => [FuseV1Options[name], wantedFuses[name]])),
  });
  const wrong = wrongFuses(await readFuses(program));
  if (wrong.length > 0) throw new Error(`The fuses of ${program} did not take: ${wrong.join('; ')}`);
}
