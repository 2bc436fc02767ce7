import { useShop } from '#live/shop.ts';
import type { Mould } from '#model/mould.ts';
import { hrefTo } from '#screens/routes.ts';
import { TakeOff } from '#screens/TakeOff.tsx';
import { setDeleted } from '#store/heads.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';

/** The ways to change a mould's facts and to take it off the list. */
export function ThisMould({ mould: { id, deletedAt } }: { mould: Mould }) {
  const { book } = useShop();
  return (
    <Sheet title="This mould">
      <ActKey href={hrefTo({ at: 'mould-facts', mouldId: id })}>Change its facts</ActKey>
      <TakeOff
        deletedAt={deletedAt}
        list={{ at: 'moulds' }}
        onSet={(next, at) => setDeleted(book, 'moulds', id, next, at)}
      />
      <p>Its past shots stay in the log. Workshop can bring it back.</p>
    </Sheet>
  );
}
