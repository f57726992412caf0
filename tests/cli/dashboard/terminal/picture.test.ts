import xterm from '@xterm/headless';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Picture } from '../../../../cli/dashboard/terminal/picture.js';

const SIZE = { cols: 30, rows: 8 };

/** What stands in each cell of an emulated screen, colours and all. */
function cells(terminal: InstanceType<typeof xterm.Terminal>): string[] {
  const { active } = terminal.buffer;
  return Array.from({ length: SIZE.rows * SIZE.cols }, (_, i) => {
    const cell = active.getLine(Math.floor(i / SIZE.cols))?.getCell(i % SIZE.cols);
    const letter = cell?.getChars() || ' ';
    // Of a blank nobody sees the colour.
    const look = letter === ' ' ? [] : [cell?.getFgColor(), cell?.isBold()];
    return [letter, cell?.isInverse(), ...look].join(' ');
  });
}

async function drawn(writes: readonly string[]): Promise<string[]> {
  const terminal = new xterm.Terminal({ ...SIZE, allowProposedApi: true });
  for (const text of writes) await new Promise<void>((resolve) => terminal.write(text, resolve));
  const all = cells(terminal);
  terminal.dispose();
  return all;
}

const piece = fc
  .tuple(
    fc.constantFrom('', '\u001b[38;5;29m', '\u001b[0;32m', '\u001b[1m\u001b[33m', '\u001b[7m', '\u001b[2m'),
    fc.constantFrom('●', '○●○', 'seeds 10', '  ', '━━━┿━━', '菜', 'é', 'e\u0301', '12', ''),
  )
  .map(([open, text]) => (open === '' ? text : `${open}${text}\u001b[0m`));
const row = fc.array(piece, { maxLength: 3 }).map((pieces) => pieces.join(''));
const picture = fc.array(row, { maxLength: SIZE.rows - 1 });

test('pictures one after the other leave the screen as the last one alone does', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(picture, { minLength: 2, maxLength: 5 }), async (pictures) => {
      const one = new Picture();
      const writes = pictures.map((rows, i) => (i === 0 ? one.whole(rows) : one.change(rows)));
      const alone = new Picture().whole(pictures.at(-1)!);
      expect(await drawn(writes)).toEqual(await drawn([alone]));
      // And again over whatever another program wrote.
      expect(await drawn([...writes, '\u001b[Hspilt\u001b[5;1Hspilt', one.whole()])).toEqual(
        await drawn([alone]),
      );
    }),
    { numRuns: 150 },
  );
});

test('what is alike is not written', () => {
  const one = new Picture();
  const rows = ['a row of signs: ○○○○○○○○○○○○', 'another row'];
  one.whole(rows);
  expect(one.change(rows)).toBe('');
  expect(one.change(['a row of signs: ○○○○●○○○○○○○', 'another row'])).toBe('\u001b[1;21H●');
  // Two that lie apart, and none of the sixteen between.
  expect(one.change(['b row of signs: ○○○○○○○○○○○○', 'another row'])).toBe('\u001b[1;1Hb\u001b[21G○');
});
