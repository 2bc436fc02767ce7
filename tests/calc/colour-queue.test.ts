import { describe, expect, test } from 'vitest';
import { lightToDark, stillToPour } from '#calc/colour-queue.ts';
import type { ColourwayId } from '#model/gear.ts';
import { id } from '../hands/log.ts';

const of = (name: string, ...swatches: string[]) => ({
  name,
  sides: swatches.map((swatch, index) => ({ name: `${index}`, swatch })),
});
const named = (colours: { name: string }[]) => colours.map(({ name }) => name);

describe('light to dark', () => {
  test('is the order of lightness, not of hue', () => {
    // L* of CIE 1976 for sRGB (IEC 61966-2-1), from memory: white 100, yellow 97, green 88, red 53, blue 32, black 0.
    const colours = [
      of('blue', '#0000ff'),
      of('black', '#000000'),
      of('green', '#00ff00'),
      of('yellow', '#ffff00'),
      of('red', '#ff0000'),
      of('white', '#ffffff'),
    ];
    expect(named(lightToDark(colours))).toEqual([
      'white',
      'yellow',
      'green',
      'red',
      'blue',
      'black',
    ]);
  });

  test('takes a laminate by its darker side, and leaves equals as they were', () => {
    const colours = [
      of('pearl and ink', '#ece7d8', '#1c2733'),
      of('brown', '#5b4029'),
      of('brown too', '#5b4029'),
    ];
    expect(named(lightToDark(colours))).toEqual(['brown', 'brown too', 'pearl and ink']);
  });
});

test('a colour that was mixed is off the list, whatever order it was mixed in', () => {
  const [a, b, c] = [1, 2, 3].map((number) => id<ColourwayId>('colourway', number));
  if (!a || !b || !c) throw new Error('There are three.');
  expect(stillToPour([a, b, c], [{ colourwayId: null }])).toEqual([a, b, c]);
  expect(stillToPour([a, b, c], [{ colourwayId: b }, { colourwayId: null }])).toEqual([a, c]);
  expect(stillToPour([], [{ colourwayId: b }])).toEqual([]);
});
