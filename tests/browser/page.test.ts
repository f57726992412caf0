/**
 * The page in a real browser: Debian's Chromium, or the one that CHROMIUM names. Only where CHROMIUM_NEEDED asks for it, as `.ci/run`
 * does, which installs one: the ordinary tests are for every machine and take no longer where a browser happens to be there.
 */

import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import axe from 'axe-core';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { evensow } from '../cli/program.js';
import { EXAMPLES, SHELF, SHELF_LOG } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';

const BROWSERS = [process.env['CHROMIUM'], '/usr/bin/chromium', '/usr/bin/chromium-browser'];
const path = BROWSERS.find((name) => name !== undefined && existsSync(name));
const needed = process.env['CHROMIUM_NEEDED'] !== undefined;

const DESKTOP = { width: 1100, height: 800 };
const PHONE = { width: 360, height: 740 };

/** What is asked in the page itself. */
const WIDTH = 'document.documentElement.scrollWidth';
const HIDDEN = `[...document.querySelectorAll('.table')]
  .filter((table) => table.scrollWidth > table.clientWidth)
  .map((table) => table.getAttribute('aria-label'))`;
const SEEN = `({
  width: ${WIDTH},
  paper: getComputedStyle(document.documentElement).getPropertyValue('--paper').trim(),
  shown: [...document.querySelectorAll('button, nav, .narrow, details')].filter(
    (element) => element.getClientRects().length > 0,
  ).length,
  highest: Math.max(...[...document.querySelectorAll('figure')].map((figure) => figure.getBoundingClientRect().height)),
})`;

const PAGES = {
  'a page without a log': [SHELF],
  'a page with a log': [SHELF, SHELF_LOG],
  'a page of two crops': [`${EXAMPLES}kitchen-garden.yaml`],
};

/** Each page in two ways that have all colours and widths between them; the one with most on it in the other two as well. */
const WAYS = [
  [0, 'light', DESKTOP],
  [0, 'dark', PHONE],
  [1, 'light', DESKTOP],
  [1, 'dark', DESKTOP],
  [1, 'light', PHONE],
  [1, 'dark', PHONE],
  [2, 'light', PHONE],
  [2, 'dark', DESKTOP],
] as const;

test.runIf(needed)('a browser is there', () => {
  expect(path, `none of ${BROWSERS.filter((name) => name !== undefined).join(', ')} is there`).toBeDefined();
});

describe.runIf(needed)('in Chromium (left out without CHROMIUM_NEEDED)', () => {
  const folder = ownFolder();
  let browser: Browser;
  beforeAll(async () => {
    // Neither root nor a container has the sandbox; what is opened is our own page.
    browser = await chromium.launch({ executablePath: path!, args: ['--no-sandbox'] });
    for (const [i, files] of Object.values(PAGES).entries()) {
      const seasons = ['--seasons', '2', '--out', join(folder, `${i}.html`)];
      expect((await evensow(['report', ...files, ...seasons])).code).toBe(0);
    }
  });
  afterAll(async () => await browser.close());

  describe.each(Object.keys(PAGES).map((name, i) => [name, i] as const))('%s', (_, place) => {
    test.each(WAYS.filter(([of]) => of === place))(
      '%#: nothing to complain of, nothing leaves (%s, %s, %o)',
      async (_of, colorScheme, viewport) => {
        const { page, said, asked } = await opened(colorScheme, viewport);
        expect(await page.evaluate(WIDTH)).toBe(viewport.width);
        // On a phone a wide table is scrolled; on a desk nothing of it is out of sight.
        if (viewport === DESKTOP) expect(await page.evaluate(HIDDEN)).toEqual([]);
        expect(await complaints(page)).toEqual([]);
        expect(said).toEqual([]);
        expect(asked).toEqual([urlOf(place)]);
        await page.close();
      },
    );

    test('printed: no control is left, nothing is wider than the paper, and it is dark on white', async () => {
      const { page, said } = await opened('dark', { width: 680, height: 960 });
      await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
      const seen = await page.evaluate<{ highest: number }>(SEEN);
      expect(seen).toEqual({ width: 680, paper: '#ffffff', shown: 0, highest: expect.any(Number) });
      // A drawing that is higher than a page would be cut: US letter, less the margins, in pixels of a 96th of an inch.
      expect(seen.highest).toBeLessThan(11 * 96 - 2 * 53);
      expect(await complaints(page)).toEqual([]);
      expect(said).toEqual([]);
      await page.close();
    });

    async function opened(colorScheme: 'light' | 'dark', viewport: typeof DESKTOP) {
      const page = await browser.newPage({ viewport, colorScheme });
      const said: string[] = [];
      const asked: string[] = [];
      page.on('console', (message) => said.push(message.text()));
      page.on('pageerror', (error) => said.push(String(error)));
      page.on('request', (request) => asked.push(request.url()));
      await page.goto(urlOf(place));
      return { page, said, asked };
    }
  });

  test('values show where something is pointed at, and go when it is left', async () => {
    const page = await browser.newPage({ viewport: DESKTOP });
    await page.goto(urlOf(0));
    const tip = page.locator('#tip');
    expect(await tip.isVisible()).toBe(false);
    const mark = page.locator('.wide circle[data-tip]').first();
    await mark.scrollIntoViewIfNeeded();
    await mark.hover();
    expect(await tip.textContent()).toBe(await mark.getAttribute('data-tip'));
    await page.locator('h1').hover();
    expect(await tip.isVisible()).toBe(false);
    await page.close();
  });

  test('the scenario is selected and copied by its button', async () => {
    const context = await browser.newContext({ permissions: ['clipboard-read', 'clipboard-write'] });
    const page = await context.newPage();
    await page.goto(urlOf(0));
    await page.locator('#copy').click();
    const selected = await page.evaluate<string>('getSelection().toString()');
    expect(selected.trim()).toMatch(/^# yaml-language-server[\s\S]*shape: gamma}$/);
    await page.locator('#copy', { hasText: /Copied|Selected/ }).waitFor();
    await context.close();
  });

  function urlOf(place: number): string {
    return pathToFileURL(join(folder, `${place}.html`)).href;
  }

  /** What axe finds. Its own script may run only where the page's policy is set aside, so it goes in by the debugger. */
  async function complaints(page: Page): Promise<string[]> {
    await page.evaluate(axe.source);
    const { violations } = await page.evaluate<Found>('axe.run()');
    return violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html.slice(0, 200)}`);
  }

  interface Found {
    readonly violations: readonly {
      readonly id: string;
      readonly nodes: readonly { readonly html: string }[];
    }[];
  }
});
