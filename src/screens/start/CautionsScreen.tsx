import { useShop } from '#live/shop.ts';
import { Cautions } from '#screens/Cautions.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { changeSettings } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';

/** The cautions, before each session until they were read once; a hot pot does not wait for a page. */
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
      <ActKey href={hrefTo({ at: 'table' })}>Skip for now</ActKey>
      <Refusal says={trouble} />
    </DeskPage>
  );
}
