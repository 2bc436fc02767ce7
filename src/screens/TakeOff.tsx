import { useShop } from '#live/shop.ts';
import type { Instant } from '#model/schemas.ts';
import { Refusal } from '#screens/Refusal.tsx';
import type { Route } from '#screens/routes.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { ActKey } from '#ui/ActKey.tsx';

interface Props {
  /** When it was taken off; null: it is on the list. */
  deletedAt: Instant | null;
  /** Where its list is. */
  list: Route;
  onSet: (deletedAt: Instant | null, at: Instant) => Promise<void>;
}

/** Takes a thing of the shop off its list, or brings it back. */
export function TakeOff({ deletedAt, list, onSet }: Props) {
  const { clock } = useShop();
  const { act, trouble } = useOneAct();
  const set = (next: Instant | null) => onSet(next, clock.now());
  return (
    <>
      {deletedAt === null ? (
        <ActKey onPress={() => void act(() => set(clock.now()).then(() => list))}>
          Take off the list
        </ActKey>
      ) : (
        <ActKey onPress={() => void act(() => set(null).then(() => null))}>Bring back</ActKey>
      )}
      <Refusal says={trouble} />
    </>
  );
}
