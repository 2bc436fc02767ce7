import fc from 'fast-check';
import { expect, test } from 'vitest';
import { linesOf } from '#calc/log.ts';
import { mergedEntries, mergedHead } from '#calc/merge.ts';
import { laterStamp, nextStamp } from '#calc/stamp.ts';
import type { Entry } from '#model/entry.ts';
import type { Stamp } from '#model/schemas.ts';
import { figure } from '../hands/figure.ts';
import { evening, id, sessionId } from '../hands/log.ts';

// Strong eventual consistency: phones that have heard the same writes show the same, whatever the
// order and however often they heard them (Shapiro, Preguica, Baquero, Zawirski 2011).

const runs = 2_000;
const yearMs = 365 * 86_400_000;

type Head = Parameters<typeof mergedHead>[0];
/** What a phone hands to another: all it has. */
interface Copy {
  heads: ReadonlyMap<string, Head>;
  entries: readonly Entry[];
}

/** A phone that writes, hands its copy on and takes others in, as the store does. */
class Phone {
  readonly device: string;
  readonly #skewMs: number;
  #last: Stamp | null = null;
  copy: Copy = { heads: new Map(), entries: [] };

  constructor(number: number, skewMs: number) {
    this.device = `0000000${'abcde'.charAt(number)}`;
    this.#skewMs = skewMs;
  }

  #stamp(at: number): Stamp {
    this.#last = nextStamp(this.#last, evening + at * 1_000 + this.#skewMs, this.device);
    return this.#last;
  }

  change(name: string, field: string, value: unknown, at: number): void {
    const stamp = this.#stamp(at);
    const was = this.copy.heads.get(name) ?? {
      id: name,
      device: this.device,
      createdAt: evening,
      stamps: {},
    };
    const next = {
      ...was,
      device: this.device,
      [field]: value,
      stamps: { ...was.stamps, [field]: stamp },
    };
    this.copy = { ...this.copy, heads: new Map([...this.copy.heads, [name, next]]) };
  }

  write(number: number, said: Entry['said'], at: number): void {
    const entry: Entry = {
      id: id('entry', number),
      sessionId,
      stamp: this.#stamp(at),
      device: this.device,
      at: evening + at * 1_000,
      writtenAt: evening + at * 1_000,
      said,
    } as Entry;
    this.copy = { ...this.copy, entries: [...this.copy.entries, entry] };
  }

  takeIn({ heads, entries }: Copy): void {
    const mine = new Map(this.copy.heads);
    for (const [name, theirs] of heads) {
      const own = mine.get(name);
      mine.set(name, own ? mergedHead(own, theirs) : theirs);
      for (const stamp of Object.values(theirs.stamps)) this.#last = laterStamp(this.#last, stamp);
    }
    for (const { stamp } of entries) this.#last = laterStamp(this.#last, stamp);
    this.copy = { heads: mine, entries: mergedEntries(this.copy.entries, entries) };
  }

  /** All it shows, as one text; the order in which it came to know things is no part of it. */
  shows(): string {
    const heads = [...this.copy.heads.values()].map((head) =>
      Object.entries(head)
        .map(([field, value]) => [
          field,
          field === 'stamps' ? Object.entries(value as object).sort() : value,
        ])
        .sort(([a], [b]) => (String(a) < String(b) ? -1 : 1)),
    );
    return JSON.stringify([
      heads.sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1)),
      linesOf(this.copy.entries),
    ]);
  }
}

const who = fc.nat(4);
const aStep = fc.oneof(
  fc.record({
    does: fc.constant('change' as const),
    who,
    head: fc.constantFrom('Grub', 'Shad'),
    field: fc.constantFrom('name', 'massG', 'deletedAt', 'fromANewerApp'),
    value: fc.oneof(fc.integer(), fc.string(), fc.constant(null)),
  }),
  fc.record({ does: fc.constant('note' as const), who, text: fc.string({ maxLength: 5 }) }),
  fc.record({ does: fc.constant('take-back' as const), who, which: fc.nat() }),
  fc.record({ does: fc.constant('put-right' as const), who, which: fc.nat() }),
  fc.record({ does: fc.constant('hand-over' as const), who }),
  fc.record({ does: fc.constant('take-in' as const), who, which: fc.nat() }),
);

const aHistory = fc.record({
  skews: fc.array(fc.integer({ min: -yearMs, max: yearMs }), { minLength: 2, maxLength: 5 }),
  steps: fc.array(aStep, { maxLength: 80, size: 'max' }),
});

test('two to five phones that exchange copies late, twice or out of order come to show the same', () => {
  let equal = 0;
  let exchanged = 0;
  fc.assert(
    fc.property(aHistory, ({ skews, steps }) => {
      const phones = skews.map((skew, number) => new Phone(number, skew));
      const underWay: Copy[] = [];
      steps.forEach((step, at) => {
        const phone = phones[step.who % phones.length] as Phone;
        const known = phone.copy.entries;
        if (step.does === 'change') phone.change(step.head, step.field, step.value, at);
        else if (step.does === 'note') phone.write(at, { kind: 'noted', text: step.text }, at);
        else if (step.does === 'hand-over') underWay.push(phone.copy);
        else if (step.does === 'take-in') {
          // A copy that was handed over stays where it is: it may come again, and after later ones.
          const copy = underWay[step.which % Math.max(1, underWay.length)];
          if (copy) phone.takeIn(copy);
          exchanged += copy ? 1 : 0;
        } else {
          const target = known[step.which % Math.max(1, known.length)];
          if (!target) return;
          const says = { kind: 'noted', text: `right ${at}` } as const;
          phone.write(
            at,
            step.does === 'take-back'
              ? { kind: 'taken-back', target: target.id }
              : { kind: 'put-right', target: target.id, says, happenedAt: target.at },
            at,
          );
        }
      });
      for (const one of phones) for (const other of phones) one.takeIn(other.copy);
      for (const one of phones.toReversed()) for (const other of phones) one.takeIn(other.copy);
      const shown = new Set(phones.map((phone) => phone.shows()));
      expect(shown.size).toBe(1);
      const [first] = phones;
      const before = first?.shows();
      for (const other of phones) first?.takeIn(other.copy);
      expect(first?.shows()).toBe(before);
      equal += 1;
    }),
    { numRuns: runs },
  );
  figure({
    drill: 'Phones that exchange copies show the same',
    required: `${runs} histories of 2 to 5 phones, clocks a year apart: all equal, and again nothing new`,
    reached: `${equal} of ${runs} equal, ${exchanged} copies taken in on the way`,
    isMet: equal >= runs && exchanged > runs,
  });
  expect(equal).toBeGreaterThanOrEqual(runs);
  expect(exchanged).toBeGreaterThan(runs);
});
