/** A page as a test reads it: its text, its tables, its drawings. */

import { parseHTML } from 'linkedom';

/** As much of an element as the tests ask for. */
export interface Node {
  readonly textContent: string;
  readonly localName: string;
  readonly outerHTML: string;
  readonly attributes: Iterable<{ readonly name: string; readonly value: string }>;
  getAttribute(name: string): string | null;
  querySelector(selector: string): Node | null;
  querySelectorAll(selector: string): Iterable<Node>;
}

export interface ReadPage {
  readonly html: string;
  readonly document: Node;
  /** The rows of the table of this caption, cells as they read; the first one is the head, if there is one. */
  table(caption: string): string[][];
  /** What a drawing tells where it is pointed at, by its title. */
  tips(title: string): string[];
  /** Text of the chapter of this title. */
  chapter(title: string): string;
}

export function readPage(html: string): ReadPage {
  const { document } = parseHTML(html) as unknown as { document: Node };
  const all = (selector: string, of: Node = document): Node[] => [...of.querySelectorAll(selector)];
  const text = ({ textContent }: Node): string => textContent.replace(/\s+/g, ' ').trim();
  return {
    html,
    document,
    table: (caption) => {
      const found = all('table').find((table) => text(table.querySelector('caption')!) === caption);
      if (found === undefined) throw new Error(`there is no table ${caption}`);
      return all('tr', found).map((row) => all('th, td', row).map(text));
    },
    tips: (title) => {
      const found = all('figure').find((figure) => text(figure.querySelector('figcaption')!) === title);
      if (found === undefined) throw new Error(`there is no drawing ${title}`);
      return all('.wide [data-tip]', found).map((of) => of.getAttribute('data-tip')!);
    },
    chapter: (title) => {
      const found = all('main > section').find((chapter) => text(chapter.querySelector('h2')!) === title);
      if (found === undefined) throw new Error(`there is no chapter ${title}`);
      return text(found);
    },
  };
}
