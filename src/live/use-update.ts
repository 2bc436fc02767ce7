import { useEffect, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { UpdateState } from '#platform/updates.ts';

/** How the app stands to its newest version, and the way to take it. */
export function useUpdate(): [state: UpdateState, take: () => void] {
  const { updates } = useShop();
  const [state, setState] = useState<UpdateState>('current');
  useEffect(() => updates.watch(setState), [updates]);
  return [state, () => void updates.take()];
}
