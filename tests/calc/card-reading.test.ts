import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type CardBait,
  cardGrey,
  cardOptics,
  paperWhite,
  type ReadSheet,
  readPatch,
  readSheet,
  type SheetPatches,
} from '#calc/card-reading.ts';
import { deltaE2000, labFromLinear } from '#calc/colour.ts';
import { mixOptics, type Optics, opticsLab, opticsLinear } from '#calc/optics.ts';
import { type Patch, patchAt, type Raster } from '#calc/patch.ts';
import { type Linear, rgb255FromLinear } from '#calc/srgb.ts';
import { expectNear, expectWithin } from '../hands/within.ts';

// The truth is a bait of known K and S, its light by Kubelka's layer over paper and over black
// (checked against published values in layer.test.ts); the camera is a gain a channel, a bend of the
// tones and sRGB. The card must give K and S back.
const strip = 0.03;
const absorbed = [
  0.3, 0.3, 0.28, 0.22, 0.1, 0.03, 0.02, 0.02, 0.03, 0.05, 0.09, 0.12, 0.13, 0.14, 0.14, 0.14,
].map((k) => k / 2);
const bait: Optics = { absorbPerMm: absorbed, scatterPerMm: 0.08 };

interface Camera {
  lamp: Linear;
  bend: number;
}
const plainCamera: Camera = { lamp: [1, 1, 1], bend: 1 };

/** A patch of known reflectance as the camera writes it. */
function seenBy({ lamp, bend }: Camera, reflectance: Linear, spread = 0.02): Patch {
  const light = reflectance.map((part, at) => 0.8 * (lamp[at] ?? 1) * part ** bend) as Linear;
  return { rgb255: rgb255FromLinear(light), spread };
}

const grey = (reflectance: number): Linear => [reflectance, reflectance, reflectance];

function sheetBy(camera: Camera, more: Partial<SheetPatches> = {}): SheetPatches {
  const white = seenBy(camera, grey(paperWhite));
  return { white, farWhite: white, grey: seenBy(camera, grey(cardGrey)), ...more };
}

function read(patches: SheetPatches): ReadSheet {
  const sheet = readSheet(patches);
  if (!sheet) throw new Error('The sheet was not read.');
  return sheet;
}

const over = (backing: number, thicknessMm = 8): Linear =>
  opticsLinear(bait, { thicknessMm, backing });

function cardBy(camera: Camera, more: Partial<CardBait> = {}): CardBait {
  return {
    overWhite: seenBy(camera, over(paperWhite)),
    onBlack: { overBlack: seenBy(camera, over(strip)), strip: seenBy(camera, grey(strip)) },
    hides: 'cloudy',
    dosePerCup: 1,
    thicknessMm: 8,
    base: null,
    ...more,
  };
}

describe('a bait on paper beside a grey card', () => {
  test.each<[string, Camera]>([
    ['a fair camera', plainCamera],
    ['a warm lamp', { lamp: [1, 0.85, 0.7], bend: 1 }],
    ['a phone that lifts the shadows', { lamp: [1, 1, 1], bend: 0.8 }],
    ['a cool lamp and a hard phone', { lamp: [0.8, 0.9, 1], bend: 1.3 }],
  ])('has its true colour under %s', (_, camera) => {
    const truth = over(paperWhite);
    const { lab, fault } = readPatch(read(sheetBy(camera)), seenBy(camera, truth));
    expect(fault).toBeNull();
    for (const [at, value] of labFromLinear(truth).entries()) {
      expectWithin(lab[at] ?? Number.NaN, value, 1e-6);
    }
  });

  test('has its true colour under any lamp and bend that is no fault', () => {
    const lamp = fc.double({ min: 0.7, max: 1, noNaN: true });
    const bend = fc.double({ min: 0.75, max: 1.35, noNaN: true });
    const part = fc.double({ min: 0.02, max: 0.8, noNaN: true });
    fc.assert(
      fc.property(
        fc.tuple(lamp, lamp, lamp),
        bend,
        fc.tuple(part, part, part),
        (lampOf, bendOf, truth) => {
          const camera = { lamp: lampOf, bend: bendOf };
          // The bend of a phone goes by channel; the sheet finds it by light, so greys must be grey.
          const found = read(sheetBy({ ...camera, lamp: [1, 1, 1] })).reflectanceOf(
            seenBy({ ...camera, lamp: [1, 1, 1] }, truth),
          );
          for (const [at, value] of truth.entries()) {
            expectNear(found[at] ?? Number.NaN, value, 1e-6);
          }
          expect(readPatch(read(sheetBy(camera)), seenBy(camera, truth)).fault).toBeNull();
        },
      ),
    );
  });

  test('whose grey is as light as the paper is no sheet', () => {
    const white = seenBy(plainCamera, grey(paperWhite));
    expect(readSheet({ white, farWhite: white, grey: white })).toBeNull();
    const black = { rgb255: [0, 0, 0], spread: 0 } as Patch;
    expect(readSheet({ white, farWhite: white, grey: black })).toBeNull();
    expect(readSheet({ white: black, farWhite: black, grey: white })).toBeNull();
  });
});

describe('a photo is faulty', () => {
  const faultOf = (sheet: SheetPatches, patch = seenBy(plainCamera, over(paperWhite))) =>
    readPatch(read(sheet), patch).fault;
  const dim = { lamp: [0.05, 0.05, 0.05], bend: 1 } as Camera;
  const bulb = { lamp: [1, 0.6, 0.3], bend: 1 } as Camera;
  const crushed = { lamp: [1, 1, 1], bend: 1.6 } as Camera;

  test.each<[string, () => string | null, string | null]>([
    ['never in fair light', () => faultOf(sheetBy(plainCamera)), null],
    ['too dark in a dim room', () => faultOf(sheetBy(dim), seenBy(dim, over(0.85))), 'too dark'],
    ['under a bulb', () => faultOf(sheetBy(bulb), seenBy(bulb, over(0.85))), 'coloured light'],
    ['with crushed shadows', () => faultOf(sheetBy(crushed)), 'altered tones'],
    [
      'with one side of the paper in shadow',
      () => faultOf(sheetBy(plainCamera, { farWhite: seenBy(plainCamera, grey(0.7)) })),
      'uneven light',
    ],
    [
      'with paper that has run into white',
      () => faultOf(sheetBy(plainCamera, { farWhite: { rgb255: [254, 250, 250], spread: 0 } })),
      'too bright',
    ],
    [
      'with a glare brighter than the paper',
      () => faultOf(sheetBy(plainCamera), seenBy(plainCamera, grey(1.05))),
      'too bright',
    ],
    [
      'on flake',
      () => faultOf(sheetBy(plainCamera), seenBy(plainCamera, over(0.85), 0.2)),
      'patchy',
    ],
  ])('%s', (_, find, fault) => {
    expect(find()).toBe(fault);
  });
});

describe('a card gives back what the bait does to light', () => {
  const optics = (sheet: SheetPatches, card: CardBait): Optics => {
    const found = cardOptics(read(sheet), card);
    if (typeof found === 'string') throw new Error(found);
    return found;
  };

  test('and a forecast from it is the bait again, over any paper and at any thickness', () => {
    const found = optics(sheetBy(plainCamera), cardBy(plainCamera));
    // S is found from the light of both halves together (method 1.3): 16 bands share one number.
    expectNear(found.scatterPerMm, bait.scatterPerMm, 0.15);
    for (const thicknessMm of [6, 8, 12]) {
      for (const backing of [paperWhite, 0.04]) {
        const truth = opticsLinear(bait, { thicknessMm, backing });
        const again = opticsLinear(found, { thicknessMm, backing });
        for (const [at, value] of truth.entries()) {
          expectWithin(again[at] ?? Number.NaN, value, 0.02);
        }
      }
    }
  });

  test('exactly, where it is grey', () => {
    const flat: Optics = { absorbPerMm: new Array<number>(16).fill(0.05), scatterPerMm: 0.06 };
    const lit = (backing: number) => opticsLinear(flat, { thicknessMm: 8, backing });
    const found = optics(
      sheetBy(plainCamera),
      cardBy(plainCamera, {
        overWhite: seenBy(plainCamera, lit(paperWhite)),
        onBlack: {
          overBlack: seenBy(plainCamera, lit(strip)),
          strip: seenBy(plainCamera, grey(strip)),
        },
      }),
    );
    expectNear(found.scatterPerMm, 0.06, 1e-4);
    for (const absorb of found.absorbPerMm) expectNear(absorb, 0.05, 1e-3);
  });

  test('per dose in a cup, less what the plastisol does itself', () => {
    const base: Optics = { absorbPerMm: new Array<number>(16).fill(0.01), scatterPerMm: 0.02 };
    const both = mixOptics(base, [{ colourant: bait, dosePerCup: 4 }]);
    const lit = (backing: number) => opticsLinear(both, { thicknessMm: 8, backing });
    const halves = {
      overWhite: seenBy(plainCamera, lit(paperWhite)),
      onBlack: {
        overBlack: seenBy(plainCamera, lit(strip)),
        strip: seenBy(plainCamera, grey(strip)),
      },
    };
    const card = cardBy(plainCamera, { ...halves, dosePerCup: 4, base });
    const found = optics(sheetBy(plainCamera), card);
    const again = mixOptics(base, [{ colourant: found, dosePerCup: 4 }]);
    expectNear(again.scatterPerMm, both.scatterPerMm, 0.15);
    const body = { thicknessMm: 8, backing: paperWhite };
    expect(deltaE2000(opticsLab(again, body), opticsLab(both, body))).toBeLessThan(1);
  });

  test('from a word where there is no black half, more for a solid bait', () => {
    const found = (['see-through', 'cloudy', 'solid'] as const).map(
      (hides) =>
        optics(sheetBy(plainCamera), cardBy(plainCamera, { onBlack: null, hides })).scatterPerMm,
    );
    expect(found).toEqual([0.02, 0.1, 0.4]);
  });

  test('not, where the strip is no black or the photo has a fault', () => {
    const overBlack = seenBy(plainCamera, over(strip));
    const light = { overBlack, strip: seenBy(plainCamera, grey(0.5)) };
    expect(cardOptics(read(sheetBy(plainCamera)), cardBy(plainCamera, { onBlack: light }))).toBe(
      'no black',
    );
    const flaky = seenBy(plainCamera, over(paperWhite), 0.3);
    expect(cardOptics(read(sheetBy(plainCamera)), cardBy(plainCamera, { overWhite: flaky }))).toBe(
      'patchy',
    );
  });
});

describe('a patch', () => {
  const raster = (width: number, height: number, at: (x: number, y: number) => number): Raster => ({
    widthPx: width,
    heightPx: height,
    rgba: Uint8ClampedArray.from({ length: 4 * width * height }, (_, index) => {
      const point = index >> 2;
      return index % 4 === 3 ? 255 : at(point % width, Math.floor(point / width));
    }),
  });

  test('is the median of 20 by 20 points, blind to specks', () => {
    const speckled = raster(60, 60, (x, y) => (x % 5 === 0 && y % 5 === 0 ? 255 : 100));
    expect(patchAt(speckled, { x: 30, y: 30 }).rgb255).toEqual([100, 100, 100]);
    expect(patchAt(speckled, { x: 30, y: 30 }).spread).toBeGreaterThan(0.5);
  });

  test('stays within the picture, however small that is', () => {
    const ramp = raster(60, 60, (x) => x);
    expect(patchAt(ramp, { x: -5, y: -5 }).rgb255[0]).toBe(9.5);
    expect(patchAt(ramp, { x: 99, y: 99 }).rgb255[0]).toBe(49.5);
    expect(
      patchAt(
        raster(3, 2, () => 7),
        { x: 1, y: 1 },
      ),
    ).toEqual({ rgb255: [7, 7, 7], spread: 0 });
    expect(
      patchAt(
        raster(3, 2, () => 0),
        { x: 1, y: 1 },
      ).spread,
    ).toBe(0);
    expect(() =>
      patchAt(
        raster(0, 0, () => 0),
        { x: 1, y: 1 },
      ),
    ).toThrow(RangeError);
  });
});
