import { useEffect, useRef, useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { SentKey } from '#screens/colours/SentKey.tsx';
import { SentMixes } from '#screens/colours/SentMixes.tsx';
import { SharedPreview } from '#screens/colours/SharedPreview.tsx';
import { Refusal } from '#screens/Refusal.tsx';
import { hrefTo } from '#screens/routes.ts';
import { useOneAct } from '#screens/use-one-act.ts';
import { headsOf } from '#store/heads.ts';
import { readMixFile, type Unpacked, unpackMix } from '#store/mix-parcel.ts';
import { forgetSentMix } from '#store/sent-mixes.ts';
import { settingsOf } from '#store/settings.ts';
import { knownMaterials, takeMix } from '#store/shared-mix.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Field } from '#ui/Field.tsx';
import { FileKey } from '#ui/FileKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';

/** Takes in a mix from a link or a file: it is looked at first, and becomes a new colour. */
export function TakeMixScreen({ packed }: { packed: string | null }) {
  const { book, clock } = useShop();
  const [found, setFound] = useState<Unpacked | null>(null);
  const { act, trouble } = useOneAct();
  const own = useLive(
    async () => ({
      materials: await headsOf(book, 'materials'),
      settings: await settingsOf(book),
    }),
    ['materials', 'settings'],
    'shelf',
  );
  // Only the answer to what was asked last is shown, however late another one comes.
  const asked = useRef(0);
  function ask(reading: Promise<Unpacked> | null) {
    asked.current += 1;
    const turn = asked.current;
    if (!reading) return setFound(null);
    void reading.then((read) => {
      if (turn !== asked.current) return;
      setFound(read);
      // What was refused with a sentence is not offered again.
      if (read.refusal !== null && packed) forgetSentMix(book, packed);
    });
  }
  useEffect(() => {
    if (packed) ask(unpackMix(packed));
    return () => {
      asked.current += 1;
    };
  }, [packed]);
  if (!own) return null;
  const mix = found?.mix ?? null;

  function fromLink(text: string) {
    const last = /take-mix\/([A-Za-z0-9_-]+)\s*$/.exec(text)?.[1] ?? text.trim();
    ask(last === '' ? null : unpackMix(last));
  }

  return (
    <DeskPage
      title="A mix from elsewhere"
      small="looked at first, then taken"
      shape="wall"
      tool={<ToolKey href={hrefTo({ at: 'colours' })} icon="back" word="Colours" />}
    >
      {mix && (
        <>
          <SharedPreview
            mix={mix}
            known={knownMaterials(mix, own.materials)}
            unit={own.settings.volumeUnit}
          />
          <ActKey
            size="main"
            onPress={() =>
              void act(async () => {
                const { id } = await takeMix(book, mix, clock.now());
                if (packed) forgetSentMix(book, packed);
                return { at: 'colour', colourwayId: id };
              })
            }
          >
            Take it as a new colour
          </ActKey>
          <Refusal says={trouble} />
          {packed && <SentKey packed={packed} />}
        </>
      )}
      <Refusal says={found?.refusal ?? undefined} />
      {!packed && !mix && <SentMixes />}
      {!mix && (
        <Sheet>
          <FileKey
            word="Choose a file of a mix"
            accept=".json,application/json"
            onFile={(file) => ask(readMixFile(file))}
          />
          <Field label="A link to a mix" hint="Paste it here. A code opens by your phone’s camera.">
            {(attributes) => (
              <input
                {...attributes}
                autocomplete="off"
                inputMode="url"
                onInput={({ currentTarget }) => fromLink(currentTarget.value)}
              />
            )}
          </Field>
        </Sheet>
      )}
    </DeskPage>
  );
}
