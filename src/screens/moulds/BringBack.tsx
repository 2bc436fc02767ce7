import { useShop } from '#live/shop.ts';
import type { Change } from '#model/change.ts';
import { changeLine } from '#screens/moulds/change-words.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';

/** Changes that were taken back lately, where their cards were, each with the way back. */
export function BringBack({ changes }: { changes: readonly Change[] }) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const bring = ({ id }: Change) =>
    act(async () => {
      await setDeleted(book, 'changes', id, null, clock.now());
      return null;
    });
  return (
    <>
      {changes.map((change) => (
        <ActKey key={change.id} onPress={() => void bring(change)}>
          Bring back: {changeLine(change)}
        </ActKey>
      ))}
      <Refusal says={trouble} />
    </>
  );
}
