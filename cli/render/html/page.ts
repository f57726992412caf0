/** A page as one file that needs nothing else: no file beside it, no request, nothing that moves but its own few lines. */

import { createHash } from 'node:crypto';
import type { Chart, Fact, Page, PageChapter } from '../../sections/page.js';
import type { Section } from '../../sections/section.js';
import { plainLines } from '../obeyed.js';
import { htmlSection } from './blocks.js';
import { chartFigure } from './charts/chart.js';
import { type Element, Elements, written } from './elements.js';
import { patterns } from './looks.js';
import { SCRIPT } from './script.js';
import { STYLE } from './style.js';

/** The document, the same for the same page to the last letter. */
export function pageHtml(page: Page): string {
  const make = new Elements();
  const root = make.of('html', { lang: 'en' }, headOf(make, page), bodyOf(make, page));
  return `<!DOCTYPE html>\n${written(root)}\n`;
}

function headOf(make: Elements, { title, made }: Page): Element {
  const meta = (attributes: Record<string, string>): Element => make.of('meta', attributes);
  return make.of(
    'head',
    {},
    meta({ charset: 'utf-8' }),
    meta({ 'http-equiv': 'Content-Security-Policy', content: POLICY }),
    meta({ name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    meta({ name: 'generator', content: made }),
    meta({ name: 'referrer', content: 'no-referrer' }),
    make.of('title', {}, title),
    raw(make, 'style', STYLE),
  );
}

/** Nothing may be loaded or sent, and of styles and scripts only these run. */
const POLICY = [
  "default-src 'none'",
  `style-src ${hashOf(STYLE)}`,
  `script-src ${hashOf(SCRIPT)}`,
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

function hashOf(text: string): string {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
}

/** Text that is written as it is. */
function raw(make: Elements, name: 'style' | 'script', text: string): Element {
  const element = make.of(name, {});
  element.textContent = text;
  return element;
}

function bodyOf(make: Elements, page: Page): Element {
  const { title, about, answer, facts, chapters, scenario, made } = page;
  const names = chapters.map(() => make.name());
  const [scenarioName, copied] = [make.name(), 'The scenario, to run it again'];
  return make.of(
    'body',
    {},
    patterns(make),
    make.of(
      'header',
      {},
      make.of('h1', {}, title),
      make.of('p', { class: 'about' }, about),
      make.of('p', { class: 'answer' }, answer),
      make.of('dl', { class: 'facts' }, ...facts.map((fact) => factOf(make, fact))),
      make.of(
        'nav',
        { 'aria-label': 'Chapters' },
        make.of(
          'ul',
          {},
          ...[...chapters.map((chapter) => chapter.title), copied].map((text, i) =>
            make.of('li', {}, make.of('a', { href: `#${[...names, scenarioName][i]}` }, text)),
          ),
        ),
      ),
    ),
    make.of(
      'main',
      {},
      ...chapters.map((chapter, i) => chapterOf(make, chapter, names[i]!)),
      make.of(
        'section',
        { 'aria-labelledby': scenarioName },
        make.of('h2', { id: scenarioName }, copied),
        make.of('p', {}, page.again),
        make.of('button', { id: 'copy', type: 'button', hidden: '' }, 'Copy the scenario'),
        scenarioOf(make, scenario),
      ),
    ),
    make.of('footer', {}, make.of('p', { class: 'made' }, made)),
    make.of('div', { id: 'tip', role: 'status', hidden: '' }),
    raw(make, 'script', SCRIPT),
  );
}

function factOf(make: Elements, { label, value, note }: Fact): Element {
  return make.of(
    'div',
    {},
    make.of('dt', {}, label),
    make.of('dd', { class: 'value' }, value),
    note === '' ? null : make.of('dd', { class: 'note' }, note),
  );
}

function chapterOf(make: Elements, { title, parts }: PageChapter, name: string): Element {
  return make.of(
    'section',
    { 'aria-labelledby': name },
    make.of('h2', { id: name }, title),
    ...parts.map((part) => partOf(make, part, title)),
  );
}

function partOf(make: Elements, part: Section | Chart, around: string): Element {
  return part.kind === 'section' ? htmlSection(make, part, 3, around) : chartFigure(make, part);
}

/** Its lines stay lines. */
function scenarioOf(make: Elements, text: string): Element {
  const pre = make.of('pre', { id: 'scenario', tabindex: 0, 'aria-label': 'Text of the scenario' });
  // The first line break of such a text is not taken for a part of it.
  pre.textContent = `\n${plainLines(text)}`;
  return pre;
}
