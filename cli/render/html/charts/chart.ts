/**
 * A chart as a figure of the page: a drawing for wide pages and paper, another for narrow ones, what is to be seen in it, and the table
 * behind it. The drawings are made by a library that needs a document only, no browser.
 */

import * as Plot from '@observablehq/plot';
import type { Chart } from '../../../sections/page.js';
import { inOneLine } from '../../obeyed.js';
import type { Element, Elements } from '../elements.js';
import { legend } from '../looks.js';
import { htmlTable } from '../table.js';
import { courseMarks } from './course.js';
import type { Drawing } from './drawing.js';
import { effectsMarks } from './effects.js';
import { holesMarks } from './holes.js';
import { plansMarks } from './plans.js';
import { sharesMarks } from './shares.js';
import { weeksMarks } from './weeks.js';

/** Widths of a drawing [px]: on paper and wide screens, and on a phone. */
export const WIDTHS = { wide: 700, narrow: 340 } as const;

/** Size of the letters [px]. */
const LETTERS = 12;

export function chartFigure(make: Elements, chart: Chart): Element {
  return figureWith(make, {
    title: chart.title,
    text: chart.text,
    draw: (width) => drawingOf(chart, width),
    below: [
      'states' in chart ? legend(make, chart.states) : null,
      chart.table === undefined
        ? null
        : make.of(
            'details',
            {},
            make.of('summary', {}, 'The figures as a table'),
            htmlTable(make, chart.table, chart.title),
          ),
    ],
  });
}

function drawingOf(chart: Chart, width: number): Drawing {
  switch (chart.kind) {
    case 'effects':
      return effectsMarks(chart, width);
    case 'plans':
      return plansMarks(chart, width);
    case 'weeks':
      return weeksMarks(chart, width);
    case 'shares':
      return sharesMarks(chart, width);
    case 'course':
      return courseMarks(chart, width);
    case 'holes':
      return holesMarks(chart, width);
  }
}

interface Figure {
  readonly title: string;
  /** For who does not see it; shown to all. */
  readonly text: string;
  readonly draw: (width: number) => Drawing;
  readonly below: readonly (Element | null)[];
}

/** @param headed whether a heading right above says its title already */
export function figureWith(make: Elements, { title, text, draw, below }: Figure, headed = false): Element {
  const drawings = Object.entries(WIDTHS).map(([name, width]) => {
    const drawing = drawn(make, draw(width), width);
    const [titled, described] = [make.name(), make.name()];
    drawing.setAttribute('class', `drawing ${name}`);
    drawing.setAttribute('role', 'img');
    drawing.setAttribute('aria-labelledby', `${titled} ${described}`);
    drawing.prepend(make.svg('title', { id: titled }, title), make.svg('desc', { id: described }, text));
    return drawing;
  });
  return make.of(
    'figure',
    {},
    make.of('figcaption', { class: headed ? 'unseen' : null }, make.of('strong', {}, title)),
    ...drawings,
    ...below.slice(0, 1),
    make.of('p', { class: 'seen' }, text),
    ...below.slice(1),
  );
}

/** The drawing as it may stand in the page: without styles of its own, and with what is told when it is pointed at as plain data. */
function drawn(make: Elements, drawing: Drawing, width: number): Element {
  const svg = Plot.plot({
    ...drawing,
    width,
    className: 'drawing',
    document: make.document as never,
  }) as unknown as Element;
  for (const style of [...svg.querySelectorAll('style')]) style.remove();
  svg.setAttribute('font-size', `${LETTERS}`);
  svg.setAttribute('font-family', 'inherit');
  for (const title of [...svg.querySelectorAll('title')]) {
    title.parentNode.setAttribute('data-tip', inOneLine(title.textContent));
    title.remove();
  }
  for (const element of svg.querySelectorAll('*')) tidy(element);
  return svg;
}

function tidy(element: Element): void {
  for (const { name, value } of [...element.attributes]) {
    // All of a picture is told by its title and description.
    if (name.startsWith('aria-')) element.removeAttribute(name);
    else if (name !== 'data-tip' && /\.\d{3}/.test(value)) element.setAttribute(name, rounded(value));
  }
  if (element.localName === 'text') element.textContent = inOneLine(element.textContent);
}

/** A hundredth of a pixel is nothing that could be seen. */
function rounded(value: string): string {
  return value.replace(/-?\d+\.\d{3,}/g, (number) => String(Math.round(Number(number) * 100) / 100));
}
