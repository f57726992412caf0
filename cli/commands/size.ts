/** `evensow size [FILE]`: the nursery against the finishing channels, with the same luck. */

import type { SizeLayout } from '../../sim/study/size/layout.js';
import { loadScenario, scenarioInput } from '../inputs/scenario-file.js';
import { numberFrom } from '../options/lists.js';
import { checkOut, type Options, seasonsOf, studyOptions, wholeNumber, wrong } from '../options/options.js';
import { channelLists } from '../options/stage-lists.js';
import { Problem } from '../problem.js';
import { MOST_DEALT } from '../studies/assignment.js';
import { carryOutStudy } from '../studies/perform.js';

/** Options that may be given several times come as lists. */
export type SizeOptions = Options & {
  readonly channels?: readonly string[];
  readonly between?: readonly string[];
};

export async function sizeCommand(file: string | undefined, options: SizeOptions): Promise<number> {
  const faults: string[] = [];
  const asked = studyOptions(options, faults);
  const layoutOf = layoutFrom(options, faults);
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  await checkOut(asked.execution.out, [scenarioInput(file)]);
  const { plan, source } = await loadScenario(file, 'optional');
  const { seed = plan.seed, execution } = asked;
  const seasons = seasonsOf([plan], asked);
  const layout = layoutOf(plan.stages.map(({ name }) => name));
  return carryOutStudy({ command: 'size', sources: [source], seed, seasons, layout }, execution);
}

/** The layout that the options ask for, once the names of the stages are known. */
function layoutFrom(options: SizeOptions, faults: string[]): (stages: readonly string[]) => SizeLayout {
  const { channels: lists, between, split, area } = options;
  const dealt = wholeNumber('--split', split, { least: 2, most: MOST_DEALT }, 12, faults);
  const m2 = areaOf(area, faults);
  const given = Object.entries({ '--channels': lists, '--split': split, '--area': area })
    .filter(([, value]) => value !== undefined)
    .map(([name]) => name);
  if (given.length > 1) {
    faults.push(
      `${given.join(' and ')} must not be given together. Each says by itself which plans are tried. Leave ${given.length === 2 ? 'one' : 'all but one'} out.`,
    );
  }
  if (between !== undefined && split === undefined && area === undefined) {
    faults.push(
      '--between must not stand alone. It says between which stages channels or an area are dealt. Example: --split 12 --between nursery,finishing',
    );
  }
  const stages = channelLists(lists, faults);
  return (names) => {
    if (stages.length > 0) return { kind: 'channels', stages };
    const dealtTo = (between ?? []).flatMap((text) => stageNames(text, names));
    if (dealt !== undefined) return { kind: 'split', channels: dealt, between: dealtTo };
    return m2 === undefined ? { kind: 'around' } : { kind: 'area', m2, between: dealtTo };
  };
}

/** `nursery,finishing`; or one name, which may hold a comma. */
function stageNames(text: string, names: readonly string[]): string[] {
  return names.includes(text.trim()) ? [text.trim()] : text.split(',').map((name) => name.trim());
}

function areaOf(text: string | undefined, faults: string[]): number | undefined {
  if (text === undefined) return undefined;
  const m2 = numberFrom(text, { least: 0, most: MOST_DEALT });
  if (m2 !== undefined && m2 > 0) return m2;
  faults.push(wrong('--area', text, `an area above 0 and at most ${MOST_DEALT} m2`, 2.5));
  return undefined;
}
