/** The thread that runs seasons for the dashboard, as the drawing thread sees it: questions in, replies out. */

import { Worker } from 'node:worker_threads';
import type { Question, Reply } from './messages.js';

export class SeasonsClient {
  readonly #thread: Worker;

  /**
   * @param file the built seasons-thread.js
   * @param hear hears each reply
   * @param broken hears why the thread ended, if it was not closed
   */
  constructor(file: URL, hear: (reply: Reply) => void, broken: (error: Error) => void) {
    this.#thread = new Worker(file);
    this.#thread.on('message', hear);
    this.#thread.on('error', broken);
    // The program must be able to end while seasons run.
    this.#thread.unref();
  }

  ask(question: Question): void {
    this.#thread.postMessage(question);
  }

  async close(): Promise<void> {
    await this.#thread.terminate();
  }
}
