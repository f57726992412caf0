/** How large the terminal is, now and after each change. */

import { useStdout } from 'ink';
import { useEffect, useState } from 'react';

export interface TerminalSize {
  readonly columns: number;
  readonly rows: number;
}

/** @returns the same object until the size changes */
export function useTerminalSize(): TerminalSize {
  const { stdout } = useStdout();
  const [size, setSize] = useState(() => sizeOf(stdout));
  useEffect(() => {
    const listen = (): void => setSize((before) => unlessEqual(before, sizeOf(stdout)));
    // It may have changed before anybody listened.
    listen();
    stdout.on('resize', listen);
    return () => {
      stdout.off('resize', listen);
    };
  }, [stdout]);
  return size;
}

/** A terminal that does not tell its size is taken for one of 80 x 24. */
function sizeOf({ columns, rows }: NodeJS.WriteStream): TerminalSize {
  return { columns: columns || 80, rows: rows || 24 };
}

function unlessEqual(before: TerminalSize, now: TerminalSize): TerminalSize {
  return before.columns === now.columns && before.rows === now.rows ? before : now;
}
