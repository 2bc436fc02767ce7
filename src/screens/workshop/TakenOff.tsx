import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { Row } from '#screens/workshop/Row.tsx';
import type { Book } from '#store/book.ts';
import { deletedHeadsOf, setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Rows.module.css';

/** What was taken off a list, with the way back. */
export function TakenOff() {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const taken = useLive(
    async () => [
      ...(await takenOf(book, 'moulds', 'A mould')),
      ...(await takenOf(book, 'colourways', 'A colour')),
      ...(await takenOf(book, 'materials', 'A material')),
      ...(await takenOf(book, 'injectors', 'An injector')),
    ],
    ['moulds', 'colourways', 'materials', 'injectors'],
    'taken',
  );
  if (!taken || taken.length === 0) return null;
  return (
    <Sheet title="Taken off the list">
      <ul class={styles.rows}>
        {taken.map(({ id, what, name, bringBack }) => (
          <Row key={id} title={name} says={`${what}. Its past stays in the log.`}>
            <ActKey
              label={`Bring back ${name}`}
              onPress={() => void act(() => bringBack(clock.now()).then(() => null))}
            >
              Bring back
            </ActKey>
          </Row>
        ))}
      </ul>
      <Refusal says={trouble} />
    </Sheet>
  );
}

async function takenOf<K extends 'moulds' | 'colourways' | 'materials' | 'injectors'>(
  book: Book,
  kind: K,
  what: string,
) {
  const heads = await deletedHeadsOf(book, kind);
  return heads.map(({ id, name }) => ({
    id: id as string,
    what,
    name,
    bringBack: (at: number) => setDeleted(book, kind, id, null, at),
  }));
}
