import { useShop } from '#live/shop.ts';
import { Cautions } from '#screens/Cautions.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { changeSettings } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';

/** The cautions once, before the first session that was not begun from the first screen. */
export function CautionsScreen() {
  const { book, clock } = useShop();
  const { act, trouble } = useOneAct();
  const read = () =>
    act(async () => {
      const at = clock.now();
      await changeSettings(book, { cautionsReadAt: at }, at);
      return { at: 'table' };
    });
  return (
    <DeskPage title="Read this once" shape="wall">
      <Cautions />
      <ActKey size="main" small="They stay under Workshop" onPress={() => void read()}>
        I have read this
      </ActKey>
      <Refusal says={trouble} />
    </DeskPage>
  );
}
