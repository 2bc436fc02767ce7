import { useEffect, useRef, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { TableClaim } from '#platform/table-lock.ts';

/** Whether this window has the table in hand, and how to take it over; null: not known yet. */
export function useTableHand(): [isHere: boolean | null, take: () => void] {
  const { tableLock } = useShop();
  const [isHere, setIsHere] = useState<boolean | null>(null);
  const claim = useRef<TableClaim | null>(null);
  useEffect(() => {
    const own = tableLock.ask(setIsHere);
    claim.current = own;
    return () => own.letGo();
  }, [tableLock]);
  return [isHere, () => claim.current?.take()];
}
