import { expect, test } from 'vitest';
import { pageHtml } from '../../../cli/render/html/page.js';
import type { Chart, Page } from '../../../cli/sections/page.js';
import {
  type Block,
  bar,
  chapter,
  code,
  command,
  day,
  doubtful,
  figure,
  interval,
  key,
  plane,
  section,
  table,
  task,
  whole,
  words,
} from '../../../cli/sections/section.js';
import { COUNT, SHARE, signed } from '../../../cli/words/numbers.js';
import { readPage } from '../../support/page.js';

/** Escape, bell, the C1 sign that begins a sequence, a separator, a sign of direction. */
const OBEYED = ['\u001b', '\u0007', '\u009b', '\u2028', '\u202e'];
const MARKUP = `</title></style></pre><script>alert("1")</script>'&amp;`;
const HOSTILE = MARKUP + OBEYED.join('');
const SHOWN = MARKUP + OBEYED.map(() => '\ufffd').join('');

function page(...blocks: Block[]): Page {
  const charts: Chart[] = [
    {
      kind: 'plans',
      title: HOSTILE,
      text: HOSTILE,
      rows: [
        { name: HOSTILE, now: true, usual: 3, bad: 1, note: HOSTILE },
        { name: 'other', now: false, usual: 0, bad: 0, note: 'nothing' },
      ],
    },
  ];
  return {
    title: HOSTILE,
    about: HOSTILE,
    answer: HOSTILE,
    facts: [{ label: HOSTILE, value: HOSTILE, note: HOSTILE }],
    chapters: [{ title: 'a chapter', parts: [section('a section', ...blocks), ...charts] }],
    scenario: `title: ${HOSTILE}\nweeks: 3\n`,
    again: HOSTILE,
    made: 'evensow',
  };
}

test('whatever is told is text: no element, no attribute, no sign that a reader would obey', () => {
  const html = pageHtml(page(HOSTILE, whole(HOSTILE), command(HOSTILE), code(HOSTILE), key(['*', HOSTILE])));
  const { document } = readPage(html);
  expect([...document.querySelectorAll('script')]).toHaveLength(1);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: those are what must not be there
  expect(html).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069]/);
  for (const of of ['h1', 'title', '.answer', 'dt', 'dd', 'figcaption', 'p', 'pre', '.drawing title']) {
    expect({ of, told: document.querySelector(of)!.textContent }).toEqual({
      of,
      told: expect.stringContaining(SHOWN),
    });
  }
  const tips = [...document.querySelectorAll('[data-tip]')].map((tip) => tip.getAttribute('data-tip'));
  expect(tips[0]).toContain(SHOWN);
  expect(document.querySelector('#scenario')!.textContent.split('\n').slice(-2)).toEqual(['weeks: 3', '']);
});

test('every kind of cell reads as in the text', () => {
  const { table: read } = readPage(
    pageHtml(
      page(
        table(
          [
            [
              words('about ', { name: 'a long name that no table of text has room for' }),
              null,
              figure(18.64, COUNT, 'heads', 24),
              interval({ low: -0.2, high: 1.3 }, signed(1)),
              day('2027-03-15'),
              day('2027-03-15', true),
              task('sow'),
              doubtful(0.5, SHARE),
              bar(0.5, { upTo: 0.75 }),
            ],
          ],
          { head: ['', 'none', 'heads\na week', '', '', '', '', '', ''] },
        ),
      ),
    ),
  );
  expect(read('a section')).toEqual([
    ['', 'none', 'heads a week', '', '', '', '', '', ''],
    [
      'about a long name that no table of text has room for',
      '-',
      '18.6/24 heads',
      '-0.2 to +1.3',
      'Mon 15 Mar 2027',
      '15 Mar',
      '\u2610 sow',
      '(50.0 %)',
      '',
    ],
  ]);
});

test('sections within sections have headings of their depth', () => {
  const { document } = readPage(
    pageHtml(page(chapter('within', section('deeper', section('deepest', 'a sentence'), 'another')))),
  );
  const headings = [...document.querySelectorAll('main h2, main h3, main h4, main h5, main h6')];
  expect(headings.slice(0, 5).map(({ localName, textContent }) => `${localName} ${textContent}`)).toEqual([
    'h2 a chapter',
    'h3 a section',
    'h4 within',
    'h5 deeper',
    'h6 deepest',
  ]);
});

test('a plane is drawn with its signs, the line through those that belong together, and what each mark is of', () => {
  const marks = [
    { x: 1, y: 2, sign: 'o', of: 'small', joined: true },
    { x: 2, y: 3, sign: '#', of: 'larger', joined: true },
    { x: 2, y: 1, sign: '.' },
  ];
  const { document, tips } = readPage(
    pageHtml(page(plane(marks, { form: COUNT, label: 'holes' }, { form: COUNT, label: '', from: 0 }))),
  );
  expect(tips('a section')).toEqual(['small: 1 holes, 2', 'larger: 2 holes, 3', '2 holes, 1']);
  const drawing = document.querySelector('figure .wide')!;
  const signs = [...drawing.querySelectorAll('text')].map(({ textContent }) => textContent);
  expect(signs).toEqual(expect.arrayContaining(['o', '#', 'holes']));
});

test('the same page is the same document to the last letter', () => {
  expect(pageHtml(page('a sentence'))).toBe(pageHtml(page('a sentence')));
});
