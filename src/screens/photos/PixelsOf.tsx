import type { ComponentChildren } from 'preact';
import type { Raster } from '#calc/patch.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';

interface Props {
  title: string;
  pixels: Raster | null | undefined;
  onLeave: () => void;
  children: (raster: Raster) => ComponentChildren;
}

/** A task on the points of a picture, once they are there. */
export function PixelsOf({ title, pixels, onLeave, children }: Props) {
  return (
    <Sheet title={title}>
      {pixels === null && <p role="alert">This picture does not open. Take it again.</p>}
      {pixels && children(pixels)}
      <ActKey onPress={onLeave}>Leave it</ActKey>
    </Sheet>
  );
}
