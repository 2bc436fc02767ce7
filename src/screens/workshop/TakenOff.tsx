import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { Row } from '#screens/workshop/Row.tsx';
import { deletedHeadsOf, setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import styles from './Rows.module.css';

const kinds = [
  ['moulds', 'mould'],
  ['colourways', 'colour'],
  ['injectors', 'injector'],
] as const;

/** What was taken off a list, with the way back. */
export function TakenOff() {
  const { book, clock } = useShop();
  const taken = useLive(
    async () => {
      const lists = kinds.map(async ([kind, word]) => {
        const heads = await deletedHeadsOf(book, kind);
        return heads.map(({ id, name }) => ({ kind, word, id, name }));
      });
      return (await Promise.all(lists)).flat();
    },
    ['moulds', 'colourways', 'injectors'],
    'taken',
  );
  if (!taken || taken.length === 0) return null;
  return (
    <Sheet title="Taken off the list">
      <ul class={styles.rows}>
        {taken.map(({ kind, word, id, name }) => (
          <Row key={id} title={name} says={`A ${word}. Its past stays in the log.`}>
            <ActKey
              label={`Bring back ${name}`}
              onPress={() => void setDeleted(book, kind, id as never, null, clock.now())}
            >
              Bring back
            </ActKey>
          </Row>
        ))}
      </ul>
    </Sheet>
  );
}
