import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { Cautions } from '#screens/Cautions.tsx';
import { hrefTo } from '#screens/routes.ts';
import { SafeSheet } from '#screens/workshop/SafeSheet.tsx';
import { ShopSheet } from '#screens/workshop/ShopSheet.tsx';
import { TableSheet } from '#screens/workshop/TableSheet.tsx';
import { TakenOff } from '#screens/workshop/TakenOff.tsx';
import { changeSettings, type SettingsFacts, settingsOf } from '#store/settings.ts';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** How this shop likes things, what it holds, and the cautions. */
export function WorkshopScreen() {
  const { book, clock } = useShop();
  const settings = useLive(() => settingsOf(book), ['settings'], 'settings');
  if (!settings) return null;
  const change = (changes: Partial<SettingsFacts>) =>
    void changeSettings(book, changes, clock.now());
  return (
    <DeskPage
      title="Workshop"
      tool={<ToolKey href={hrefTo({ at: 'pour' })} icon="back" word="Pour" />}
    >
      <SafeSheet />
      <Cautions />
      <TableSheet settings={settings} onChange={change} />
      <ShopSheet settings={settings} onChange={change} />
      <TakenOff />
    </DeskPage>
  );
}
