/** The unpacked folder of a Linux package as one file, whoever wrote it: the same content gives the same bytes. */
import { join } from 'node:path';
import { create } from 'tar';

const unpackedName = 'linux-unpacked';

export async function packTar(output: string): Promise<string> {
  const file = join(output, 'bagwright-linux.tar.gz');
  await create(
    {
      file,
      gzip: true,
      cwd: output,
      portable: true,
      // A folder of the program's own name is what comes out.
      onWriteEntry: (entry) => {
        entry.path = entry.path.replace(unpackedName, 'bagwright');
      },
    },
    [unpackedName],
  );
  return file;
}
