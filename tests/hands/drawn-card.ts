import { cardGrey, paperWhite } from '#calc/card-reading.ts';
import { type Optics, opticsLinear } from '#calc/optics.ts';
import { type Linear, rgb255FromLinear } from '#calc/srgb.ts';
import { mostPhotoBytes, mostPhotoPx } from '#model/photo.ts';
import { devicePictures } from '#platform/pictures.ts';
import type { SmallPicture } from '#store/photos.ts';
import { aPicture } from './picture-files.ts';

/** Where things lie on a drawn card, as shares of its width and height. */
export const onCard = {
  white: [0.08, 0.1],
  farWhite: [0.92, 0.9],
  grey: [0.2, 0.85],
  strip: [0.75, 0.2],
  overWhite: [0.3, 0.45],
  overBlack: [0.75, 0.45],
} as const;

/** What a matt black strip reflects here. */
export const stripReflectance = 0.03;

/** A lamp: what it gives of red, green and blue. */
export type Lamp = readonly [number, number, number];

/**
 * A photo of a bait of these optics, half on white paper and half on black, drawn by Kubelka's layer
 * under a lamp, and made small as the app does it.
 */
export async function aCardPicture(
  optics: Optics,
  { thicknessMm = 10, lamp = [0.85, 0.85, 0.85] as Lamp } = {},
): Promise<SmallPicture> {
  const css = (reflectance: Readonly<Linear>) => {
    const light = reflectance.map((part, at) => part * (lamp[at] ?? 0)) as Linear;
    return `rgb(${rgb255FromLinear(light).map(Math.round).join(' ')})`;
  };
  const grey = (part: number): Linear => [part, part, part];
  const over = (backing: number) => opticsLinear(optics, { thicknessMm, backing });
  const bytes = await aPicture(
    [800, 600],
    (paper, width, height) => {
      const fill = (colour: string, x: number, y: number, w: number, h: number) => {
        paper.fillStyle = colour;
        paper.fillRect(x * width, y * height, w * width, h * height);
      };
      fill(css(grey(paperWhite)), 0, 0, 1, 1);
      fill(css(grey(stripReflectance)), 0.5, 0.1, 0.4, 0.6);
      fill(css(grey(cardGrey)), 0.05, 0.75, 0.35, 0.22);
      fill(css(over(paperWhite)), 0.15, 0.35, 0.35, 0.2);
      fill(css(over(stripReflectance)), 0.5, 0.35, 0.35, 0.2);
    },
    'image/png',
  );
  const limits = { mostPx: mostPhotoPx, mostBytes: mostPhotoBytes };
  return await devicePictures.remake(new Blob([bytes], { type: 'image/png' }), limits);
}
