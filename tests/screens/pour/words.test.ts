import { describe, expect, test } from 'vitest';
import { entryLimits } from '#calc/entry-limits.ts';
import { linesOf } from '#calc/log.ts';
import { tableOf } from '#calc/table.ts';
import type { PotId } from '#model/entry.ts';
import type { MaterialId } from '#model/material.ts';
import { entryWords } from '#screens/entry-words.ts';
import { askedInstant } from '#screens/pour/time-words.ts';
import { openedWords, resultWords } from '#screens/result-words.ts';
import { results } from '../../hands/evening.ts';
import { aFrozenMould, dyedPot, evening, id, Pen, potMixed } from '../../hands/log.ts';

test.each([
  ['gggg', 'All good'],
  ['gggc', 'All good'],
  ['cccc', 'All closed off'],
  ['nnnc', 'Not checked'],
  ['ggnn', '2 good, 2 not checked'],
  ['gggggsgg', '7 good, 1 bad: 6 short'],
  ['sgsdgggn', '4 good, 3 bad, 1 not checked: 1, 3 short; 4 dent'],
  ['ssss', '0 good, 4 bad: 1, 2, 3, 4 short'],
])('%s reads "%s"', (gave, words) => {
  expect(resultWords(results(gave))).toBe(words);
});

test('moulds logged with one press are told apart where they differ', () => {
  const names = ['Grub 50', 'Shad 7'];
  expect(openedWords([results('gggg'), results('gg')], names)).toBe('All good');
  expect(openedWords([results('gsgg'), results('gg')], names)).toBe(
    'Grub 50: 3 good, 1 bad: 2 short. Shad 7: all good',
  );
});

describe('a line of the log', () => {
  const units = { tempUnit: 'F', volumeUnit: 'mL' } as const;
  const wordsIn = (pen: Pen) => {
    const table = tableOf(pen.entries);
    return linesOf(pen.entries).map((line) => {
      const { what, where } = entryWords(table, line, units);
      return [what, where];
    });
  };

  test('says the outcome first and the place second, in the units of the person', () => {
    const pen = new Pen().open([aFrozenMould(1, { name: 'Grub 50' })]);
    pen.write({ kind: 'pot-heated', potId: id('pot', 1) });
    pen.write({ kind: 'pot-read', potId: id('pot', 1), tempC: 165 });
    pen.fill(1, 1);
    pen.log(1, ['good', 'short', 'good', 'good']);
    pen.fill(1, 2);
    pen.write({ kind: 'cavity-closed', mouldId: id('mould', 1), cavity: 2, isClosed: true });
    pen.write({
      kind: 'set-time-chosen',
      mouldId: id('mould', 1),
      setSec: 165,
      hasNoClock: false,
    });
    // 165 °C is 329 °F (NIST SP 811, B.8: °F = °C x 1.8 + 32).
    expect(wordsIn(pen).slice(3)).toEqual([
      ['Pot reheated', 'Pot 1, heat 2'],
      ['Pot 329 °F', 'Pot 1, reading'],
      ['Filled', 'Grub 50, round 1, 42 mL'],
      ['3 good, 1 bad: 2 short', 'Grub 50, shot 1'],
      ['Filled, not checked', 'Grub 50, round 2, 42 mL'],
      ['Cavity 2 closed off', 'Grub 50'],
      ['Set time 2:45', 'Grub 50'],
    ]);
  });

  test('names the version of a mix, what went into each cup and the number on it', () => {
    const pen = new Pen();
    const said = dyedPot(1, 12);
    const [pot] = said.pots;
    if (!pot?.mix) throw new Error('A pot without its mix.');
    const flake = { materialId: id<MaterialId>('material', 3), name: 'Green flake' };
    const half = { ...flake, amount: 0.5, unit: 'tsp', isPinned: false } as const;
    const mix = { ...pot.mix, version: 4, doses: [...pot.mix.doses, half] };
    const ink = { ...pot, name: 'Ink', batch: '1203-1', mix };
    const rust = { ...pot, potId: id<PotId>('pot', 2), slot: 1, name: 'Rust', batch: '1203-2' };
    pen.write({ ...said, name: 'Ink', pots: [ink] }, evening);
    pen.write({ ...said, name: 'Ink', pots: [{ ...ink, batch: null }] });
    pen.write({ ...said, name: 'Ink/rust', pots: [ink, rust] });
    pen.write({ ...said, name: 'Ink', pots: [{ ...ink, mix: null }] });
    pen.write({ ...said, name: 'Ink', pots: [{ ...ink, mix: null, batch: null }] });
    expect(wordsIn(pen).map(([, where]) => where)).toEqual([
      'Ink 4, 475 mL. Cup 1203-1: 12 drops Soot black, ½ tsp Green flake',
      'Ink 4, 475 mL. 12 drops Soot black, ½ tsp Green flake',
      'Ink/rust 4, 945 mL. Ink, Cup 1203-1: 12 drops Soot black, ½ tsp Green flake. ' +
        'Rust, Cup 1203-2: 12 drops Soot black',
      'Ink, 475 mL. Cup 1203-1',
      'Ink, 475 mL',
    ]);
  });

  test('names each layer of a hand pour with its pot and the gap before it', () => {
    const pen = new Pen().open([aFrozenMould(3, { name: 'Cup 4' })]);
    pen.fill(3, 1, evening + 60_000);
    pen.write(potMixed(2, 1), evening + 60_000);
    const layer = (pot: number, at: number) =>
      pen.write(
        {
          kind: 'layer-poured',
          potId: id('pot', pot),
          shots: [{ shotId: id('shot', 1), volumeMl: 14 }],
        },
        at,
      );
    layer(2, evening + 130_000);
    layer(1, evening + 175_000);
    pen.write({ kind: 'layers-ended', shotId: id('shot', 1) });
    expect(wordsIn(pen).slice(-3)).toEqual([
      ['Layer 2 from Pot 2, after 1:10', 'Cup 4, shot 1'],
      ['Layer 3 from Pot 1, after 0:45', 'Cup 4, shot 1'],
      ['Last layer', 'Cup 4, shot 1'],
    ]);
  });

  test('tells trays, trials, pots and injectors', () => {
    const pen = new Pen().open();
    pen.fill(1, 1);
    pen.write({ kind: 'tray-counted', mouldId: id('mould', 1), count: 14 });
    for (const did of [true, false, null]) {
      pen.write({ kind: 'tried', shotId: id('shot', 1), what: 'even', did });
    }
    pen.write({ kind: 'pot-chosen', potIds: [id('pot', 1)] });
    pen.write({ kind: 'injector-taken', injector: null });
    expect(wordsIn(pen).slice(4)).toEqual([
      ['Tray counted: 14', 'Mould 1'],
      ['Trial: Even', 'Mould 1, shot 1'],
      ['Trial: Uneven', 'Mould 1, shot 1'],
      ['No trial', 'Mould 1, shot 1'],
      ['Pour from', 'Pot 1'],
      ['Injector', 'None'],
    ]);
  });

  test('whose fill was taken back says so instead of naming no shot', () => {
    const pen = new Pen().open([aFrozenMould(1)]);
    const fill = pen.fill(1, 1);
    pen.log(1, ['good', 'good', 'good', 'good']);
    pen.write({ kind: 'taken-back', target: fill.id });
    expect(wordsIn(pen).at(-1)).toEqual(['All good', 'Its fill was taken back']);
  });
});

test('the minute of a limit is inside it, the one before is not', () => {
  const pen = new Pen().open();
  const mixed = pen.write(potMixed(2), evening + 90_000);
  pen.write({ kind: 'pot-heated', potId: id('pot', 2) }, evening + 600_000);
  const lines = linesOf(pen.entries);
  const line = lines.at(-1);
  if (!line) throw new Error('There is no line.');
  const limits = entryLimits(tableOf(pen.entries), lines, line, evening + 3_600_000);
  expect(askedInstant(evening + 60_000, limits, 'Europe/Berlin')).toEqual({ at: mixed.at });
  expect(askedInstant(evening, limits, 'Europe/Berlin')).toEqual({
    refusal: 'This pot was mixed at 19:01.',
  });
});
