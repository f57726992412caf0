/** Schema of the lamps over a stage. */

import { between } from '../fields.js';
import { AMOUNT, HOURS, PPFD } from './limits.js';

export const lamps = {
  ppfd: between(
    PPFD,
    'Light at the leaves; 0 for a dark stage [umol m-2 s-1].',
    'umol m-2 s-1',
    'ppfd: 200',
  ).optional(),
  hours: between(HOURS, 'Hours a day for which the lamps burn [hours].', 'hours', 'hours: 16').optional(),
  watts: between(
    AMOUNT,
    'What all lamps of the stage draw together, by a meter; instead of efficacy [W].',
    'watts',
    'watts: 240',
  ).optional(),
  efficacy: between(
    { least: 0.01, most: 100 },
    'Light that the lamps make of a joule; instead of watts [umol/J].',
    'umol per joule',
    'efficacy: 2.6',
  ).optional(),
  reaches: between(
    { least: 0.01, most: 1 },
    'Share of the light of the lamps that reaches the holes; with efficacy, and 1 if not given, which flatters.',
    '',
    'reaches: 0.85',
  ).optional(),
};
