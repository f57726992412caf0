/** The pages of the docs: their blocks of code, and how what a block shows is held against what was really printed. */

/** A block between ``` and ```. */
export interface Block {
  readonly language: string;
  readonly text: string;
  /** Line of the page on which its text begins, from 1. */
  readonly line: number;
  /** What the HTML comments right above it say. */
  readonly marks: readonly string[];
  /** Whether nothing but empty lines stands between it and the block before. */
  readonly follows: boolean;
}

/** A line that stands for any number of lines that are left out. */
const LEFT_OUT = '...';

/** @throws Error if a block is indented (it would be missed) or never ends */
export function blocksOf(page: string): Block[] {
  const lines = page.split('\n');
  const blocks: Block[] = [];
  let marks: string[] = [];
  let follows = false;
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i]!;
    const mark = /^<!-- (.*) -->$/.exec(line);
    if (mark !== null) marks.push(mark[1]!);
    else if (line.startsWith('```')) {
      const end = lines.indexOf('```', i + 1);
      if (end < 0) throw new Error(`line ${i + 1}: a block that never ends`);
      const text = lines.slice(i + 1, end).join('\n');
      blocks.push({ language: line.slice(3), text, line: i + 2, marks, follows });
      marks = [];
      follows = true;
      i = end;
    } else if (/^\s+```/.test(line)) throw new Error(`line ${i + 1}: a block that is indented`);
    else if (line !== '') {
      marks = [];
      follows = false;
    }
  }
  return blocks;
}

/** What a mark says behind its first words; null if no mark begins with them. */
export function marked({ marks }: Block, words: string): string | null {
  const mark = marks.find((one) => one.startsWith(words));
  return mark === undefined ? null : mark.slice(words.length).trim();
}

/** The page with other texts in its blocks. */
export function withTexts(page: string, texts: ReadonlyMap<Block, string>): string {
  const lines = page.split('\n');
  // From the end, so that the numbers of the lines above stay right.
  for (const [block, text] of [...texts].sort(([a], [b]) => b.line - a.line)) {
    const old = lines[block.line - 1] === '```' ? 0 : block.text.split('\n').length;
    lines.splice(block.line - 1, old, ...text.split('\n'));
  }
  return lines.join('\n');
}

/**
 * What a block should show of an output: its own text if that is right; else its parts as they are in the output now.
 *
 * The parts lie between the lines that are left out. The first one is the beginning of the output and the last one its
 * end; a part in between is looked for where most of its lines are alike but for their numbers.
 */
export function shownOf(output: string, text: string): string {
  const lines = output
    .trimEnd()
    .split('\n')
    .map((line) => line.trimEnd());
  const parts = partsOf(text);
  // Nothing left out (or nothing there yet): all of it.
  if (parts.length === 1) return lines.join('\n');
  let from = 0;
  const found = parts.map((part, p) => {
    const at =
      p === 0
        ? 0
        : p === parts.length - 1
          ? Math.max(from, lines.length - part.length)
          : placeOf(part, lines, from);
    from = at + part.length;
    return lines.slice(at, from);
  });
  return found
    .map((part) => part.join('\n'))
    .join(`\n${LEFT_OUT}\n`)
    .replace(/^\n|\n$/g, '');
}

function partsOf(text: string): string[][] {
  const parts: string[][] = [[]];
  for (const line of text.split('\n')) {
    if (line === LEFT_OUT) parts.push([]);
    else parts.at(-1)!.push(line);
  }
  return parts;
}

function placeOf(part: readonly string[], lines: readonly string[], from: number): number {
  let best = from;
  let most = -1;
  for (let at = from; at + part.length <= lines.length; at++) {
    const alike = part.reduce(
      (sum, line, i) => sum + (line === lines[at + i] ? 2 : words(line) === words(lines[at + i]!) ? 1 : 0),
      0,
    );
    if (alike > most) {
      best = at;
      most = alike;
    }
  }
  return best;
}

/** A line without its numbers and its spaces. */
function words(line: string): string {
  return line.replace(/[-+]?\d[\d.,]*/g, '#').replace(/\s+/g, ' ');
}

/** Targets of the links of a page. */
export function linksOf(page: string): string[] {
  return [...page.replace(/```[\s\S]*?```/g, '').matchAll(/\]\(([^)\s]+)\)/g)].map(([, target]) => target!);
}

/** The anchors of a page's headings, as they are made where Markdown is shown. */
export function anchorsOf(page: string): string[] {
  const headings = page.replace(/```[\s\S]*?```/g, '').matchAll(/^#+ (.+)$/gm);
  return [...headings].map(([, heading]) =>
    heading!
      .toLowerCase()
      .replace(/[^\p{L}\p{N} _-]/gu, '')
      .replaceAll(' ', '-'),
  );
}

/** What stands between ` and ` in the text of a page. */
export function spansOf(page: string): string[] {
  return [...page.replace(/```[\s\S]*?```/g, '').matchAll(/`([^`\n]+)`/g)].map(([, span]) => span!);
}
