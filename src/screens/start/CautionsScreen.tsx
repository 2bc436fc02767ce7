import { useShop } from '#live/shop.ts';
import { Cautions } from '#screens/Cautions.tsx';
import { hrefTo } from '#screens/routes.ts';
import { changeSettings } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';

/** The cautions once, before the first session that was not begun from the first screen. */
export function CautionsScreen() {
  const { book, clock } = useShop();
  async function read() {
    const at = clock.now();
    await changeSettings(book, { cautionsReadAt: at }, at);
    window.location.hash = hrefTo({ at: 'table' });
  }
  return (
    <DeskPage title="Before you heat" shape="wall">
      <Cautions />
      <ActKey size="main" small="They stay under Workshop" onPress={() => void read()}>
        I have read this
      </ActKey>
    </DeskPage>
  );
}
