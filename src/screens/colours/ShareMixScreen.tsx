import { useEffect, useState } from 'preact/hooks';
import { type QrPath, qrPath } from '#calc/qr-path.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Material } from '#model/material.ts';
import type { MixId } from '#model/mix.ts';
import type { SharedMix } from '#model/shared-mix.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { hrefTo } from '#screens/routes.ts';
import { deletedHeadsOf, headOf, headsOf } from '#store/heads.ts';
import { mixFile, packMix } from '#store/mix-parcel.ts';
import { sharedOf } from '#store/shared-mix.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { Field } from '#ui/Field.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './Mix.module.css';

/** One version of a mix to give away: as a code, a link or a file. */
export function ShareMixScreen({ mixId }: { mixId: MixId }) {
  const { book } = useShop();
  const found = useLive(
    async () => {
      const mix = await headOf(book, 'mixes', mixId);
      if (!mix) return { shared: null, back: null, name: '' };
      const colourway = mix.colourwayId
        ? await headOf(book, 'colourways', mix.colourwayId)
        : undefined;
      // What was taken off the shelf is still in the mix.
      const materials = [
        ...(await deletedHeadsOf(book, 'materials')),
        ...(await headsOf(book, 'materials')),
      ];
      const byId = new Map<string, Material>(materials.map((one) => [one.id, one]));
      const name = colourway?.name ?? mix.sides[0]?.name ?? 'Mix';
      return {
        shared: sharedOf(mix, name, byId),
        back: colourway?.id ?? null,
        name: `${name} ${mix.version}`,
      };
    },
    ['mixes', 'materials', 'colourways'],
    mixId,
  );
  if (!found) return null;
  const { shared, back, name } = found;
  if (!shared) return <NotHere what="This mix" back={{ at: 'colours' }} word="Colours" />;
  const to = back
    ? ({ at: 'colour', colourwayId: back } as const)
    : ({ at: 'nameless', mixId } as const);
  return (
    <DeskPage
      title={`Share ${name}`}
      small="doses, names and looks: nothing else of your shop"
      tool={<ToolKey href={hrefTo(to)} icon="back" word="Colour" />}
    >
      <ShareSheets shared={shared} name={name} />
    </DeskPage>
  );
}

function ShareSheets({ shared, name }: { shared: SharedMix; name: string }) {
  const [link, setLink] = useState<string | null>(null);
  const [code, setCode] = useState<QrPath | null>(null);
  const [file, setFile] = useState<string | null>(null);
  const text = mixFile(shared);
  useEffect(() => {
    let isOver = false;
    const url = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
    setFile(url);
    packMix(shared).then(
      (packed) => {
        const [home = ''] = window.location.href.split('#');
        const address = `${home}${hrefTo({ at: 'take-mix', packed })}`;
        if (isOver) return;
        setLink(address);
        setCode(qrPath(address));
      },
      // A browser that cannot pack it still has the file.
      () => !isOver && setLink(''),
    );
    return () => {
      isOver = true;
      URL.revokeObjectURL(url);
    };
  }, [text]);
  // All at once: the code would push the keys from under a finger.
  if (link === null || file === null) return null;
  return (
    <>
      <Sheet title="A code">
        {code ? (
          <svg
            class={styles.code}
            viewBox={`0 0 ${code.size} ${code.size}`}
            role="img"
            aria-label="QR code that opens this mix"
            shape-rendering="crispEdges"
          >
            <path d={code.path} />
          </svg>
        ) : (
          <p>{link ? 'Too much for a code. Give it as a file or a link.' : 'Give it as a file.'}</p>
        )}
        {code && <p>Another phone’s camera opens it. The mix is in the code itself.</p>}
      </Sheet>
      <Sheet title="A file or a link">
        {file && (
          <a class={styles.fileKey} href={file} download={`${fileName(name)}.json`}>
            Save as a file
          </a>
        )}
        {link && (
          <Field label="Link" hint="The mix is in the link. Nothing is sent anywhere.">
            {(attributes) => (
              <input
                {...attributes}
                readOnly
                value={link}
                onFocus={({ currentTarget }) => currentTarget.select()}
              />
            )}
          </Field>
        )}
        <ActKey href={hrefTo({ at: 'take-mix', packed: null })}>Take in another mix</ActKey>
      </Sheet>
    </>
  );
}

/** A name that every device takes for a file. */
export function fileName(name: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return `${plain || 'colour'}-mix`;
}
