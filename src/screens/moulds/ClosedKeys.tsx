import { useShop } from '#live/shop.ts';
import type { Mould } from '#model/mould.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { changeHead, headOf } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Acts } from '#ui/Acts.tsx';

interface Props {
  mould: Mould;
  /** The cavity with the most bad; null: none stands apart. */
  worst: { cavity: number } | null;
  /** True while a session with it runs: there it is closed and opened by the table's own keys. */
  isAtTable: boolean;
}

/** Closes the worst cavity off, and opens closed ones again. */
export function ClosedKeys({ mould, worst, isAtTable }: Props) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const { id, closed } = mould;
  const canClose = worst !== null && !closed.includes(worst.cavity);
  if (!canClose && closed.length === 0) return null;
  if (isAtTable) return <p>It is on the table now. Close and open its cavities there.</p>;
  const set = (cavity: number, isClosed: boolean) =>
    void act(async () => {
      // As it stands when its turn has come: another cavity may have been closed or opened meanwhile.
      const now = (await headOf(book, 'moulds', id))?.closed ?? closed;
      const next = now.filter((one) => one !== cavity);
      if (isClosed) next.push(cavity);
      await changeHead(book, 'moulds', id, { closed: next.toSorted((a, b) => a - b) }, clock.now());
      return null;
    }, `${cavity}`);
  return (
    <>
      <Acts>
        {canClose && (
          <ActKey onPress={() => set(worst.cavity, true)}>Close off {worst.cavity}</ActKey>
        )}
        {closed.map((cavity) => (
          <ActKey key={cavity} onPress={() => set(cavity, false)}>
            Open {cavity} again
          </ActKey>
        ))}
      </Acts>
      <Refusal says={trouble} />
    </>
  );
}
