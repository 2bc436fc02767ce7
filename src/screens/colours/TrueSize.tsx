import { useState } from 'preact/hooks';
import { useShop } from '#live/shop.ts';
import { keepPxPerMm } from '#store/glass.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { Stepper } from '#ui/Stepper.tsx';
import styles from './TrueSize.module.css';

/** The short edge of a bank card, mm (ISO/IEC 7810, ID-1). */
const cardMm = 53.98;

/** What a glass has that nobody measured: a phone's 160 px in an inch, a desk screen's 96. */
export function guessedPxPerMm(): number {
  return (window.matchMedia('(pointer: coarse)').matches ? 160 : 96) / 25.4;
}

/** Flake is drawn at its true size once a bank card was laid on the glass. */
export function TrueSize({
  pxPerMm,
  isMeasured,
  onChange,
}: {
  pxPerMm: number;
  isMeasured: boolean;
  onChange: (pxPerMm: number) => void;
}) {
  const { book } = useShop();
  const [isOpen, setIsOpen] = useState(false);
  const edgePx = Math.round(cardMm * pxPerMm);
  const step = (by: number) => {
    const next = Math.min(1_000, Math.max(120, edgePx + by)) / cardMm;
    keepPxPerMm(book, next);
    onChange(next);
  };
  if (!isOpen) {
    return (
      <Sheet>
        <p>Flake is drawn at {isMeasured ? 'true size on this glass' : 'a guessed size'}.</p>
        <ActKey onPress={() => setIsOpen(true)}>
          {isMeasured ? 'Measure the glass again' : 'Draw it at true size'}
        </ActKey>
      </Sheet>
    );
  }
  return (
    <Sheet title="True size">
      <p>Lay the short edge of a bank card on the bar, and step until both are as long.</p>
      <div class={styles.room}>
        <div class={styles.bar} style={{ '--edge-px': `${edgePx}px` }} aria-hidden="true" />
      </div>
      <Stepper
        label="Length of the bar"
        value={`${edgePx} px`}
        small="as long as the card"
        lessName="Shorter"
        moreName="Longer"
        onLess={() => step(-2)}
        onMore={() => step(2)}
      />
      <ActKey onPress={() => setIsOpen(false)}>Put the bar away</ActKey>
    </Sheet>
  );
}
