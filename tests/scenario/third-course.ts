/** The third course of support/lettuce-courses.ts as a scenario. */

/** A line without luck, tended daily, in which no plant ever waits for a hole; days are told of the light as it is. */
export const THIRD = `title: third course
start: 2027-01-04
weeks: 10
seed: 1
visits: daily
stages:
  - {name: seedlings, channels: 2, holes: 8, hole_area_cm2: 20, ppfd: 150, hours: 16, watts: 10}
  - {name: nursery, channels: 3, holes: 8, hole_area_cm2: 81, ppfd: 200, hours: 16, efficacy: 2.5, reaches: 0.8}
  - {name: finishing, channels: 5, holes: 8, hole_area_cm2: 400, ppfd: 260, hours: 16, efficacy: 2.5, reaches: 0.8}
crops:
  - name: lettuce
    head_g: 150
    germination: 1
    sow: {every: 7, seeds: 4}
    stages:
      seedlings: {days: 8, shape: fixed, days_at: {ppfd: 150, hours: 16}}
      nursery: {days: 13, shape: fixed, days_at: {ppfd: 200, hours: 16}}
      finishing: {days: 20, shape: fixed, days_at: {ppfd: 260, hours: 16}}
climate: {air_c: 22, night_c: 19, humidity: 65, co2: 600}
prices: {kwh: 0.3}
`;
