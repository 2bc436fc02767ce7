import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Mould, MouldId } from '#model/mould.ts';
import { MouldForm } from '#screens/moulds/MouldForm.tsx';
import { hrefTo } from '#screens/routes.ts';
import { headOf } from '#store/heads.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** What is known about a mould, to be typed at the desk; null: a new one. */
export function MouldFactsScreen({ mouldId }: { mouldId: MouldId | null }) {
  const { book } = useShop();
  const found = useLive<{ mould: Mould | null }>(
    async () => ({ mould: mouldId ? ((await headOf(book, 'moulds', mouldId)) ?? null) : null }),
    ['moulds'],
    mouldId ?? 'new',
  );
  if (!found) return null;
  const back = mouldId ? hrefTo({ at: 'mould', mouldId }) : hrefTo({ at: 'moulds' });
  return (
    <DeskPage
      title={found.mould?.name ?? 'A new mould'}
      small="Leave empty what you do not know"
      shape="wall"
      tool={<ToolKey href={back} icon="back" word="Back" />}
    >
      <MouldForm mould={found.mould} />
    </DeskPage>
  );
}
