import { inStampOrder } from '#calc/log.ts';
import { nextStamp } from '#calc/stamp.ts';
import type { Stamp } from '#model/schemas.ts';
import { aFrozenMould, evening, id, Pen } from './log.ts';

const device = '0000000a';

/**
 * A shop as the first release stored it: every table of the first rung, with names from the edge of
 * what a field takes and a field that release did not know. Written once into
 * `tests/fixtures/shop-v1.json`; that file is frozen, so this only tells where it came from.
 */
export function shopOfVersion1() {
  let last: Stamp | null = null;
  const head = (kind: string, number: number, facts: Record<string, unknown>) => {
    last = nextStamp(last, evening - 86_400_000, device);
    const fields = [...Object.keys(facts), 'deletedAt'];
    return {
      ...facts,
      id: id(kind, number),
      device,
      stamps: Object.fromEntries(fields.map((field) => [field, last])),
      createdAt: evening - 86_400_000,
      deletedAt: null,
    };
  };
  const {
    mouldId: _mouldId,
    ownOpensSec: _own,
    warmAboveK: _warm,
    defectOrder: _order,
    ...facts
  } = aFrozenMould(1);
  const session = new Pen(device).open();
  for (let shot = 1; shot <= 6; shot += 1) {
    session.fill((shot % 2) + 1, shot);
    session.log(
      shot,
      shot === 3 ? ['short', 'good', 'good', 'dent'] : ['good', 'good', 'good', 'good'],
    );
  }
  const running = new Pen('0000000b').open();
  running.fill(1, 20);
  running.log(20, ['good', 'good', 'not-checked', 'good']);
  session.write({ kind: 'session-ended' });
  const entries = inStampOrder(session.entries);
  const second = id('session', 2);
  return {
    version: 1,
    tables: {
      moulds: [
        head('mould', 1, { ...facts, name: 'Grub 50' }),
        head('mould', 2, { ...facts, name: '🐟🎣 5″', massG: 900, fromLater: [1, { a: null }] }),
        { ...head('mould', 3, { ...facts, name: 'x'.repeat(60) }), deletedAt: evening },
      ],
      injectors: [
        head('injector', 1, {
          name: 'Two cups',
          capacityMl: 473.176473,
          boreMm: null,
          isTwin: false,
        }),
      ],
      colourways: [
        head('colourway', 1, { name: 'Peat brown', sides: [{ name: 'Peat', swatch: '#5b4029' }] }),
      ],
      settings: [
        {
          ...head('settings', 1, {
            palette: 'lamp',
            mainKeySide: 'left',
            keySize: 'large',
            music: 'elsewhere',
            hearing: 'heard',
            pedal: { press: ['PageDown'], undo: ['PageUp'] },
            tempUnit: 'F',
            volumeUnit: 'floz',
            heatLimit: 6,
            ambientC: 18,
            pourC: 168,
            potMl: 400,
            cautionsReadAt: evening - 86_400_000,
          }),
          id: 'settings',
        },
      ],
      entries: running.entries.map((entry) => ({ ...entry, sessionId: second })),
      sealed: [
        {
          id: id('session', 1),
          startedAt: evening,
          endedAt: entries.at(-1)?.at ?? evening,
          zone: 'Europe/Berlin',
          entries,
        },
      ],
      drafts: [{ sessionId: second, marks: [], openShotId: null }],
      meta: [{ name: 'device', device, lastStamp: last }],
    },
  };
}
