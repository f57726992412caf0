/**
 * What the packages do at the first picture and need not: together more than a third of the processor time of opening the dashboard.
 *
 * - yoga has its machine code in a text within the program, and takes it apart by `fetch` if there is one: Node then loads its whole
 *   HTTP client. Without `fetch` it does so itself; nothing else in the program may go to the network either.
 * - string-width asks of every sign whether it is a sequence of emoji. That expression takes Node a tenth of a second to prepare. Of a
 *   single unit the property of the code point says the same (`Emoji_Presentation`; tests/scripts/quick-start.test.ts tries all).
 */

import { readFile } from 'node:fs/promises';

export const WITHOUT_FETCH = { fetch: 'undefined' };

/** What is asked by string-width, and what is asked first instead. */
const ASKED = 'rgiEmojiRegex.test(segment)';
export const ALONE = /^\p{Emoji_Presentation}$/u;
const INSTEAD = `(segment.length > 1 ? ${ASKED} : emojiAlone.test(segment))`;

/** @throws Error if the package has changed so that there is nothing to be put in the place of */
export const quickWidths = {
  name: 'quick-widths',
  setup(build) {
    build.onLoad({ filter: /[\\/]string-width[\\/]index\.js$/ }, async ({ path }) => {
      const { version } = JSON.parse(await readFile(path.replace(/index\.js$/, 'package.json'), 'utf8'));
      const text = await readFile(path, 'utf8');
      if (!version.startsWith('8.')) return undefined;
      if (text.split(ASKED).length !== 2) throw new Error(`${path} asks nothing like ${ASKED} any more`);
      return {
        contents: `${text.replace(ASKED, () => INSTEAD)}\nconst emojiAlone = ${ALONE};\n`,
        loader: 'js',
      };
    });
  },
};
