/**
 * Elements of a page. All text and every value goes in as data, and is escaped when the page is written; what a reader's
 * machine would obey instead of showing it is replaced as in every other text.
 */

import { parseHTML } from 'linkedom';
import { inOneLine } from '../obeyed.js';

/** As much of an element as is needed here. */
export interface Element {
  readonly outerHTML: string;
  readonly localName: string;
  readonly children: Iterable<Element>;
  readonly parentNode: Element;
  readonly attributes: Iterable<{ readonly name: string; readonly value: string }>;
  textContent: string;
  append(...children: (Element | string)[]): void;
  prepend(...children: Element[]): void;
  remove(): void;
  getAttribute(name: string): string | null;
  setAttribute(name: string, value: string): void;
  removeAttribute(name: string): void;
  querySelectorAll(selector: string): Iterable<Element>;
}

/** A document as those need it who draw in it. */
export interface Document {
  createElement(name: string): Element;
  createElementNS(space: string, name: string): Element;
}

type Attributes = Readonly<Record<string, string | number | null>>;
type Child = Element | string | null;

const SVG = 'http://www.w3.org/2000/svg';

/** Makes elements, and names for those that others refer to. */
export class Elements {
  readonly document: Document = parseHTML('<!doctype html><html><body></body></html>')
    .document as unknown as Document;
  #names = 0;

  /** @param attributes null: it has none of that name @param children null: none */
  of(name: string, attributes: Attributes, ...children: readonly Child[]): Element {
    return filled(this.document.createElement(name), attributes, children);
  }

  svg(name: string, attributes: Attributes, ...children: readonly Child[]): Element {
    return filled(this.document.createElementNS(SVG, name), attributes, children);
  }

  /** A name that no other element of this page has. */
  name(): string {
    this.#names++;
    return `n${this.#names}`;
  }
}

/**
 * The document as text. The library escapes text in elements; values of attributes it writes as they are, but for quotes, and so it does
 * with the text of a title.
 */
export function written(root: Element): string {
  for (const element of root.querySelectorAll('*')) {
    for (const { name, value } of [...element.attributes]) {
      if (/[&<>]/.test(value)) element.setAttribute(name, escaped(value));
    }
    if (element.localName === 'title' && element.parentNode.localName === 'head') {
      element.textContent = escaped(element.textContent);
    }
  }
  return root.outerHTML;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

function filled(element: Element, attributes: Attributes, children: readonly Child[]): Element {
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== null) element.setAttribute(name, inOneLine(String(value)));
  }
  for (const child of children) {
    if (child !== null) element.append(typeof child === 'string' ? inOneLine(child) : child);
  }
  return element;
}
