/**
 * Opens the dashboard on the terminal and gives the terminal back, whatever happens. The only file that has both ink and the
 * process in its hands.
 *
 * ink and react are loaded here and nowhere else, when they are needed: that takes a tenth of a second.
 */

import { watched } from '../io/watched.js';
import type { AppProps } from './app.js';
import { Terminal } from './terminal/terminal.js';
import { signsFor } from './theme.js';

export interface OpenOptions extends Pick<AppProps, 'scenario' | 'text' | 'real'> {
  /** Linear text for somebody who listens. */
  readonly listening: boolean;
}

/** @returns the exit code @throws what a component threw, with the terminal given back */
export async function open({ listening, ...shown }: OpenOptions): Promise<number> {
  prepare();
  const [{ render }, { appFor }] = await Promise.all([import('ink'), import('./app.js')]);
  const terminal = new Terminal(process.stdout, process.stdin);
  let code = 0;
  const end: { now: (() => void) | null } = { now: null };
  if (!listening) {
    terminal.enter((signal) => {
      code = signal;
      end.now?.();
    });
  }
  try {
    const app = render(
      appFor({
        ...shown,
        signs: signsFor(process.env, process.platform),
        thread: new URL('./seasons-thread.js', import.meta.url),
        repaint: () => {
          if (!listening) terminal.repaint();
        },
        stop: () => terminal.stop(),
      }),
      {
        stdout: listening ? process.stdout : terminal.stream(),
        exitOnCtrlC: false,
        patchConsole: false,
        // A key that comes while a season runs waits for the next frame.
        maxFps: 60,
        isScreenReaderEnabled: listening,
      },
    );
    end.now = () => app.unmount();
    await app.waitUntilExit();
  } finally {
    terminal.leave();
  }
  return code;
}

/** What ink reads from the environment when it is loaded. */
function prepare(): void {
  watched();
  // ink's colours know FORCE_COLOR, not NO_COLOR (no-color.org: set and not empty).
  if (process.env['NO_COLOR']) process.env['FORCE_COLOR'] = '0';
}
