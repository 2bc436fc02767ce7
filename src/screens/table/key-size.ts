import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { SettingsFacts } from '#store/settings.ts';

/** How large the gloves need the lesser keys of this table. */
export const KeySize = createContext<SettingsFacts['keySize']>('usual');

const leastPx = { usual: 72, large: 96, largest: 112 } as const;
const gapPx = 8;

/** The least a cell of a map may be, with its gap and the keys for parts, CSS px. */
export function useCellRoom(): { cellPx: number; gapPx: number; partKeysPx: number } {
  const cellPx = leastPx[useContext(KeySize)];
  return { cellPx, gapPx, partKeysPx: cellPx + gapPx };
}

/** The least that a key of this table may be either way, CSS px. */
export function useLeastPx(): number {
  return leastPx[useContext(KeySize)];
}

/** Whether the keys are larger than usual, so that fewer go on a page. */
export function useIsLarge(): boolean {
  return useContext(KeySize) !== 'usual';
}
