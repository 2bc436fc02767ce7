import { useShop } from '#live/shop.ts';
import type { Idea, Remark } from '#model/photo.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';

/** How long the way back stays on the page: the evening of the mistake. */
const recentMs = 12 * 3_600_000;
const most = 3;

interface Props {
  kind: 'remarks' | 'ideas';
  /** What was taken off, newest first. */
  taken: readonly (Remark | Idea)[];
}

/** What was taken off lately, where it stood, each with the way back. */
export function TakenLately({ kind, taken }: Props) {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const now = clock.now();
  const lately = taken.filter(({ deletedAt }) => now - (deletedAt ?? 0) < recentMs).slice(0, most);
  return (
    <>
      {lately.map(({ id, text }) => (
        <ActKey
          key={id}
          onPress={() =>
            void act(() => setDeleted(book, kind, id, null, clock.now()).then(() => null), id)
          }
        >
          Bring back: {text.length > 40 ? `${text.slice(0, 40)}…` : text}
        </ActKey>
      ))}
      <Refusal says={trouble} />
    </>
  );
}
