import { describe, expect, test } from 'vitest';
import { channelDays } from '../../../sim/season/replay/channel-days.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { rowsOf, seasonOf } from '../../support/replayed.js';
import { simulatedLog } from '../../support/simulated-log.js';

const plan = line(
  [stage('tray', 20), { ...stage('bed', 5), channels: 4 }],
  [crop([grow(time(4)), grow(time(9, 0.1))], every(3, 42, 4))],
  { weeks: 6, visits: visitDays(6) },
);

function channels(...texts: string[]) {
  return channelDays(seasonOf(plan, rowsOf(plan, texts)));
}

describe('what stands in a channel', () => {
  test('is told by the rows that name it', () => {
    const [tray, bed] = channels(
      '0 sow A 4 tray @T1',
      '4 move A 3 bed @B1',
      '5 move A 1 bed @B2',
      '13 pick A 2 bed @B1',
      '14 lose A 1 bed @B2 died',
    );
    expect(tray).toEqual([
      {
        channel: 'T1',
        changes: [
          { date: '2027-01-04', standing: 4 },
          { date: '2027-01-08', standing: 1 },
          { date: '2027-01-09', standing: 0 },
        ],
        told_until: null,
      },
    ]);
    expect(bed!.map(({ channel, changes }) => [channel, changes.map(({ standing }) => standing)])).toEqual([
      ['B1', [3, 1]],
      ['B2', [1, 0]],
    ]);
  });

  test('is no longer told once plants of a batch leave that stands in several channels', () => {
    const [tray] = channels('0 sow A 4 tray @T1', '0 sow B 4 tray @T2', '4 move A 2 bed @B1');
    expect(tray!.map(({ told_until }) => told_until)).toEqual([null, null]);
    const [, bed] = channels(
      '0 sow A 4 tray @T1',
      '4 move A 2 bed @B1',
      '5 move A 2 bed @B2',
      '13 pick A 1 bed',
    );
    expect(bed!.map(({ told_until }) => told_until)).toEqual(['2027-01-17', '2027-01-17']);
    // Those that came first are taken to have gone.
    expect(bed![0]!.changes.at(-1)).toEqual({ date: '2027-01-17', standing: 1 });
  });

  test('is not shown where no row names a channel', () => {
    expect(channels('0 sow A 4 tray', '4 move A 4 bed')).toEqual([[], []]);
  });

  test('of a simulated season is right in the last stage: all channels together hold what the stage holds', () => {
    const season = seasonOf(plan, simulatedLog(plan, 3, 0, { channels: true }));
    const [tray, bed] = channelDays(season);
    expect(tray!.every(({ told_until }) => told_until === null)).toBe(true);
    expect(bed!.every(({ told_until }) => told_until === null)).toBe(true);
    expect(bed!.length).toBeGreaterThan(1);
    for (const { changes } of bed!) {
      expect(Math.max(...changes.map(({ standing }) => standing))).toBeLessThanOrEqual(5);
      expect(Math.min(...changes.map(({ standing }) => standing))).toBeGreaterThanOrEqual(0);
    }
  });
});
