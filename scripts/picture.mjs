/**
 * Makes the picture of the dashboard in the README (docs/dashboard.svg) from the real screen: the built program runs in a
 * pseudo-terminal, keys are typed, and what an emulated screen then shows is written cell by cell as SVG.
 */
import { rename, writeFile } from 'node:fs/promises';
import { spawn } from '@lydell/node-pty';
import xterm from '@xterm/headless';

const COLUMNS = 110;
const ROWS = 40;
/** Keys, and what must be on the screen before the next: some weeks on, and all of the strip. */
const SCRIPT = [['\u001b[6~'.repeat(5), /day 84 /]];
const COMPLETE = /seasons each, same luck/;

/** Size of a cell [px], and the font. */
const CELL = { width: 8.4, height: 18, font: 14 };
const MARGIN = 14;
const BACKGROUND = '#16191d';
/** The terminal's own colour, then the 16 of a terminal. */
const PLAIN = '#d8dee4';
const COLOURS = [
  ...['#5b6570', '#e06c60', '#7cc37c', '#d9b44a', '#6ea8dc', '#c08ad8', '#5cc0c0', '#d8dee4'],
  ...['#8a949e', '#f08a7c', '#98dc98', '#f0cf6a', '#8cc2f4', '#d8a8ee', '#7cdcdc', '#ffffff'],
];

const terminal = new xterm.Terminal({ cols: COLUMNS, rows: ROWS, allowProposedApi: true });
const program = spawn(process.execPath, ['dist/evensow.js'], {
  cols: COLUMNS,
  rows: ROWS,
  name: 'xterm-256color',
  env: { PATH: process.env.PATH, HOME: process.env.HOME, LANG: 'C.UTF-8', TZ: 'UTC' },
});
program.onData((text) => terminal.write(text));
const wait = (ms) => new Promise((resolve) => setTimeout(resolve, ms));

await shows(COMPLETE);
for (const [keys, expected] of SCRIPT) {
  program.write(keys);
  await shows(expected);
}
// The last of it may still be on its way.
await wait(1000);
const svg = picture();
program.write('q');
await writeFile('docs/dashboard.svg.part', svg);
await rename('docs/dashboard.svg.part', 'docs/dashboard.svg');
process.exit(0);

async function shows(expected) {
  const seen = () =>
    Array.from({ length: ROWS }, (_, y) => terminal.buffer.active.getLine(y).translateToString(true)).join(
      '\n',
    );
  for (let tries = 0; !expected.test(seen()); tries++) {
    if (tries === 300) throw new Error(`waited in vain for ${expected}; the screen:\n${seen()}`);
    await wait(100);
  }
}

function picture() {
  const width = COLUMNS * CELL.width + 2 * MARGIN;
  const height = ROWS * CELL.height + 2 * MARGIN;
  const rows = Array.from({ length: ROWS }, (_, y) => row(y)).filter((text) => text !== '');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="The dashboard: the answer, the plan beside its neighbours, stages with their holes, the picks of each week">
<rect width="100%" height="100%" rx="8" fill="${BACKGROUND}"/>
<g font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="${CELL.font}" xml:space="preserve"><style>text { white-space: pre }</style>
${rows.join('\n')}
</g>
</svg>
`;
}

/** One row: runs of cells that look alike, each at its place, so that no font can shift them. */
function row(y) {
  const line = terminal.buffer.active.getLine(y);
  const runs = [];
  for (let x = 0; x < COLUMNS; x++) {
    const cell = line.getCell(x);
    const look = lookOf(cell);
    const last = runs.at(-1);
    if (last !== undefined && last.look === look) last.text += cell.getChars() || ' ';
    else runs.push({ x, look, text: cell.getChars() || ' ' });
  }
  return runs
    .filter(({ text, look }) => text.trim() !== '' || look.includes('inverse'))
    .map(({ x, look, text }) => run(x, y, look, text))
    .join('');
}

function run(x, y, look, text) {
  const [colour, ...styles] = look.split(' ');
  const left = MARGIN + x * CELL.width;
  const top = MARGIN + y * CELL.height;
  const width = [...text].length * CELL.width;
  const inverse = styles.includes('inverse');
  const back = inverse
    ? `<rect x="${round(left)}" y="${round(top)}" width="${round(width)}" height="${CELL.height}" fill="${colour}"/>`
    : '';
  const weight = styles.includes('bold') ? ' font-weight="bold"' : '';
  const faint = styles.includes('dim') ? ' opacity="0.55"' : '';
  const escaped = text.replace(/[&<>]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[sign]);
  return `${back}<text x="${round(left)}" y="${round(top + 13.5)}" textLength="${round(width)}" fill="${inverse ? BACKGROUND : colour}"${weight}${faint}>${escaped}</text>`;
}

function lookOf(cell) {
  const colour = cell.isFgPalette() ? colourOf(cell.getFgColor()) : PLAIN;
  const styles = [cell.isBold() && 'bold', cell.isDim() && 'dim', cell.isInverse() && 'inverse'];
  return [colour, ...styles.filter(Boolean)].join(' ');
}

/** Of 256 places those beyond the 16 are levels of red, green and blue, then greys. */
function colourOf(place) {
  if (place < 16) return COLOURS[place];
  const level = (step) => [0, 95, 135, 175, 215, 255][step];
  const at = place - 16;
  const rgb =
    place < 232
      ? [level(Math.floor(at / 36)), level(Math.floor(at / 6) % 6), level(at % 6)]
      : Array(3).fill(8 + 10 * (place - 232));
  return `#${rgb.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}

function round(value) {
  return Math.round(value * 10) / 10;
}
