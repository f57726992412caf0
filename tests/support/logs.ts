/** What a recorder heard, kept as rows or as lines of text. */

import type { EventObserver, Line, PlantEvent } from '../../sim/models/line/line.js';

export interface Note {
  readonly t: number;
  readonly deed: PlantEvent;
  readonly plant: number;
  readonly crop: number;
  readonly stage: number;
  readonly hole: number;
}

/** A recorder that keeps everything. */
export class Notes implements EventObserver {
  readonly rows: Note[] = [];

  onEvent(t: number, deed: PlantEvent, plant: number, crop: number, stage: number, hole: number): void {
    this.rows.push({ t, deed, plant, crop, stage, hole });
  }
}

/** Everything that happens in one season of `line`, in order. */
export function notesOf(line: Line, seed = 1, season = 0): Note[] {
  const notes = new Notes();
  line.run(seed, season, notes);
  return notes.rows;
}

/** As text, for tests whose numbers a reader follows on paper: `day deed plant @hole`. */
export function log(line: Line, deeds?: readonly PlantEvent[]): string[] {
  return notesOf(line)
    .filter(({ deed }) => deeds === undefined || deeds.includes(deed))
    .map(({ t, deed, plant, hole }) => `${t} ${deed} ${plant} @${hole}`);
}
