import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { InjectorId } from '#model/gear.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { hrefTo } from '#screens/routes.ts';
import { InjectorForm } from '#screens/workshop/InjectorForm.tsx';
import { headOf } from '#store/heads.ts';
import { settingsOf } from '#store/settings.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** What is known about an injector; null: a new one. */
export function InjectorFactsScreen({ injectorId }: { injectorId: InjectorId | null }) {
  const { book } = useShop();
  const found = useLive(
    async () => ({
      injector: injectorId ? await headOf(book, 'injectors', injectorId) : null,
      unit: (await settingsOf(book)).volumeUnit,
    }),
    ['injectors', 'settings'],
    injectorId ?? 'new',
  );
  if (!found) return null;
  const { injector, unit } = found;
  if (injector === undefined) {
    return <NotHere what="This injector" back={{ at: 'workshop' }} word="Workshop" />;
  }
  return (
    <DeskPage
      title={injector?.name ?? 'A new injector'}
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'workshop' })} icon="back" word="Workshop" />}
    >
      <InjectorForm injector={injector} unit={unit} />
    </DeskPage>
  );
}
