import { expect, test } from 'vitest';
import { nearest } from '../../sim/models/nearest.js';
import { nearestWeekday } from '../../sim/scenario/fields.js';

const KEYS = ['title', 'start', 'weeks', 'seed', 'visits', 'away', 'stages', 'crops', 'want'];

test.each([
  ['wekes', 'weeks'],
  ['week', 'weeks'],
  ['Weeks', 'weeks'],
  ['crop', 'crops'],
  ['sede', 'seed'],
  ['vists', 'visits'],
])('%s was meant as %s', (word, meant) => {
  expect(nearest(word, KEYS)).toBe(meant);
});

test.each(['light', 'climate', 'tank', 'prices', 'x', ''])('"%s" was meant as none of the keys', (word) => {
  expect(nearest(word, KEYS)).toBeNull();
});

test('a word inside another is near, from three letters on', () => {
  expect(nearest('area', ['holes', 'hole_area_cm2'])).toBe('hole_area_cm2');
  expect(nearest('finish', ['germination', 'finishing'])).toBe('finishing');
  expect(nearest('day', ['holes', 'clean_days'])).toBe('clean_days');
  expect(nearest('da', ['holes', 'clean_days'])).toBeNull();
});

test.each([
  ['Monday', 'mon'],
  ['tues', 'tue'],
  ['wensday', 'wed'],
  ['thurs', 'thu'],
  ['SAT', 'sat'],
])('the weekday %s was meant as %s', (word, meant) => {
  expect(nearestWeekday(word)).toBe(meant);
});
