import { spotsOf } from '#calc/cavity-layout.ts';
import type { Layout } from '#model/mould.ts';

type Grid = Extract<Layout, { kind: 'grid' }>;

const corners = ['top-left', 'bottom-left', 'top-right', 'bottom-right'] as const;

/** The number of the cavity that is top left when the mould lies open. */
export function topLeftCavity(grid: Grid, opens: 'same' | 'mirrored'): number {
  const spot = spotsOf(grid, opens).find(({ row, col }) => row === 1 && col === 1);
  return spot?.cavity ?? 1;
}

/**
 * The numbers that can be top left, smallest first, each with the corner where the count then
 * begins: four of them, two for a single row or column.
 */
export function topLeftChoices(grid: Grid): { cavity: number; from: Grid['from'] }[] {
  const choices = new Map<number, Grid['from']>();
  for (const from of corners) {
    const cavity = topLeftCavity({ ...grid, from }, 'same');
    if (!choices.has(cavity)) choices.set(cavity, from);
  }
  return [...choices]
    .map(([cavity, from]) => ({ cavity, from }))
    .sort((a, b) => a.cavity - b.cavity);
}
