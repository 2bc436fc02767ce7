import { useLayoutEffect, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { UpdateState } from '#platform/updates.ts';

/**
 * How the app stood to its newest version when this component came, and the way to take that
 * version. It changes by taking alone: nothing appears or moves under the hand.
 */
export function useUpdate(): [state: UpdateState, take: () => void] {
  const { updates } = useShop();
  const [state, setState] = useState<UpdateState>(() => updates.state());
  useLayoutEffect(() => updates.told(), [updates]);
  return [state, () => void updates.take().then(() => setState(updates.state()))];
}
