import { expect, test } from 'vitest';
import { hrefTo, type Route, routeOf } from '#screens/routes.ts';

const id = '0199a3b2-0000-7000-8000-000000000001';
const plain = [
  ...['pour', 'table', 'start', 'cautions', 'moulds', 'yields', 'colours', 'shelf', 'bait-cost'],
  ...['ideas', 'find-photo', 'workshop', 'glove-check', 'sound-check', 'pedal-check', 'keep'],
  ...['open-copy', 'tables', 'line-up'],
];
const records = {
  session: 'sessionId',
  mould: 'mouldId',
  'mould-facts': 'mouldId',
  colour: 'colourwayId',
  'colour-facts': 'colourwayId',
  'mix-facts': 'colourwayId',
  photos: 'colourwayId',
  photo: 'photoId',
  card: 'materialId',
  material: 'materialId',
  'material-facts': 'materialId',
  nameless: 'mixId',
  'share-mix': 'mixId',
  'injector-facts': 'injectorId',
};

const every: object[] = [
  ...plain.map((at) => ({ at })),
  ...Object.entries(records).map(([at, field]) => ({ at, [field]: id })),
  { at: 'mould-facts', mouldId: null },
  { at: 'colour-facts', colourwayId: null },
  { at: 'material-facts', materialId: null },
  { at: 'injector-facts', injectorId: null },
  { at: 'line-up', like: id },
  { at: 'day', day: '2026-11-26' },
  { at: 'drops', mixId: id, volumeMl: 118.294 },
  { at: 'take-mix', packed: 'abc_-1' },
  { at: 'take-mix', packed: null },
];

test.each(every.map((route) => [JSON.stringify(route), route]))(
  '%s leads there and back',
  (_, route) => {
    expect(routeOf(hrefTo(route as Route))).toEqual(route);
  },
);

test.each([
  ['', '#', '#/', '#/nowhere', '#/constructor', '#/__proto__/x', `#/__proto__/${id}`],
  ['#/mould', '#/mould/', '#/mould/new', '#/mix-facts/new', '#/session/7', '#/mould-facts/<b>'],
  ['#/day', '#/day/26-11-2026', '#/line-up/7', `#/drops/7/100`, `#/MOULD/${id}`],
])('what is no address leads to Pour', (...hashes) => {
  for (const hash of hashes) expect(routeOf(hash), hash).toEqual({ at: 'pour' });
});

test('a drop counter without a volume leads to Colours', () => {
  for (const volume of ['', '0', '-5', '1e5', 'x']) {
    expect(routeOf(`#/drops/${id}/${volume}`), volume).toEqual({ at: 'colours' });
  }
});
