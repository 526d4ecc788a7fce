import { useRef } from 'react';
import type { RefObject } from 'react';
import { Button } from '@mantine/core';
import { useSession } from '../session/SessionContext.ts';
import { refusalOf } from '../../store/session.ts';
import { RefusedError } from '../../engine/errors.ts';

export type OpenFile = (name: string, bytes: Uint8Array<ArrayBuffer>) => void;

/** More than 100,000 rows with every column filled take. */
const mostBytes = 256 * 1024 * 1024;

/** Lets the person choose a CSV file; its bytes go on as they are, for its encoding is the reader's to find out. */
export function ChooseFile({
  label,
  onOpen,
  filled = false,
  asks,
}: {
  label: string;
  onOpen: OpenFile;
  filled?: boolean;
  /** Held by whoever opens the choice from elsewhere. */
  asks?: RefObject<HTMLInputElement | null>;
}) {
  const session = useSession();
  const own = useRef<HTMLInputElement>(null);
  const input = asks ?? own;
  const read = async (file: File): Promise<void> => {
    try {
      if (file.size > mostBytes)
        throw new RefusedError({
          code: 'too-large',
          message: `${file.name} is larger than is read: 256 MB`,
          file: file.name,
        });
      onOpen(file.name, new Uint8Array(await file.arrayBuffer()));
    } catch (error) {
      session.refuse(file.name, refusalOf(error));
    }
  };
  return (
    <>
      <input
        ref={input}
        type="file"
        accept=".csv,.tsv,.txt,text/csv"
        hidden
        aria-label={`${label} (file)`}
        onChange={({ currentTarget }) => {
          const [file] = currentTarget.files ?? [];
          currentTarget.value = '';
          if (file !== undefined) void read(file);
        }}
      />
      <Button variant={filled ? 'filled' : 'default'} onClick={() => input.current?.click()}>
        {label}
      </Button>
    </>
  );
}
