import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import type { Route } from '#screens/routes.ts';
import type { Shape } from '#screens/shape.ts';
import { ShapeChoice } from '#screens/start/ShapeChoice.tsx';
import { Welcome } from '#screens/start/Welcome.tsx';
import { useOneAct } from '#screens/use-one-act.ts';
import { changeSettings } from '#store/settings.ts';
import { addPlainMould, startPouring } from '#store/start.ts';

/** The first screen of an empty shop: nothing is asked before the first shot but the mould's shape. */
export function StartScreen() {
  const { book, clock } = useShop();
  const [isChoosing, setIsChoosing] = useState(false);
  const { act, trouble } = useOneAct();

  async function pour(shape: Shape): Promise<Route> {
    const at = clock.now();
    const mould = await addPlainMould(book, shape, at);
    // The cautions stand on the page of this key.
    await changeSettings(book, { cautionsReadAt: at }, at);
    const plain = { mouldIds: [mould.id], injectorId: null, colourwayId: null };
    await startPouring(book, { ...plain, zone: clock.zone() }, at);
    return { at: 'table' };
  }

  if (!isChoosing) return <Welcome onPour={() => setIsChoosing(true)} />;
  return (
    <ShapeChoice
      refusal={trouble}
      onBack={() => setIsChoosing(false)}
      onChosen={(shape) => void act(() => pour(shape))}
    />
  );
}
