import type { ComponentChildren } from 'preact';
import { useMemo } from 'preact/hooks';
import { relativeStrength, type Verdict } from '#calc/balance.ts';
import type { FlakeLook } from '#calc/flake-look.ts';
import { nearestPhoto } from '#calc/guess.ts';
import { type ColourShop, paperBacking } from '#calc/shop-colours.ts';
import {
  flakedGuess,
  guessOfSide,
  meetingLine,
  type ShopGuess,
  taughtFor,
} from '#calc/shop-forecast.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MaterialId } from '#model/material.ts';
import type { Mix, MixSide } from '#model/mix.ts';
import type { Photo, PhotoReading } from '#model/photo.ts';
import { ColourSpot } from '#screens/ColourSpot.tsx';
import { balanceWords, flakeWords, guessWords, leftOutWords } from '#screens/forecast-words.ts';
import { type LengthUnit, lengthWords } from '#screens/lengths.ts';
import { MeetingLine } from '#screens/MeetingLine.tsx';
import { NearestPhoto } from '#screens/NearestPhoto.tsx';
import { hrefTo } from '#screens/routes.ts';
import { ActKey } from '#ui/ActKey.tsx';
import styles from './ForecastPictures.module.css';

interface Props {
  shop: ColourShop;
  mix: Mix;
  /** What was said of a laminate's balance, newest first. */
  verdicts: readonly Verdict[];
  thick: number;
  thin: number;
  unit: LengthUnit;
  colourwayId: ColourwayId;
  /** The choice of thickness: left out while no side can be guessed at any thickness. */
  children: ComponentChildren;
}

/** Every side thick and thin with its words, the nearest own photo of it, and the line where two meet. */
export function ForecastPictures(props: Props) {
  const { shop, mix, verdicts, thick, thin, unit, colourwayId, children } = props;
  const nameOf = (id: string) => nameIn(shop, mix, id);
  // Learning takes a moment; a step in thickness need not do it again.
  const lessons = useMemo(
    () => mix.sides.map((side) => ({ side, taught: taughtFor(shop, side.plastisolId) })),
    [shop, mix],
  );
  const sides = lessons.map(({ side, taught }) => {
    const at = (thicknessMm: number): Shown => {
      const of = { mix, side, body: { thicknessMm, backing: paperBacking } };
      const guess = guessOfSide(shop, taught, of);
      return { guess, look: flakedGuess(shop, taught, of, guess) };
    };
    const [one, other] = [at(thick), at(thin)];
    const near = nearestOwn(shop, one.guess.kind === 'guess' ? one.guess : other.guess);
    return { side, taught, thick: one, thin: other, near };
  });
  const [a, b] = sides;
  const isPair = a?.side.role === 'a' && b?.side.role === 'b';
  const isGuessed = sides.every((one) => one.thick.guess.kind === 'guess');
  const steps =
    isPair && isGuessed
      ? meetingLine(shop, mix, sides, { thicknessMm: thick, backing: paperBacking })
      : [];
  return (
    <>
      {sides.map((one) => (
        <SideGuess
          key={one.side.role}
          isOnly={!b}
          {...{ thick, thin, unit, nameOf }}
          guesses={one}
        />
      ))}
      {steps.length > 0 && a && b && (
        <MeetingLine
          steps={steps}
          strength={relativeStrength(verdicts)}
          names={[a.side.name, b.side.name]}
        />
      )}
      {isPair && a && b && (
        <p>
          {balanceWords(verdicts, [a.side.name, b.side.name])}
          {steps.length > 0 && ' How wide the line is drawn means nothing.'}
        </p>
      )}
      {leftOutWords(shop, mix).map((words) => (
        <p key={words}>{words}</p>
      ))}
      {sides.every(({ near }) => near === null) && (
        <NearestPhoto photo={newestOf(shop, colourwayId)} isNearest={false} />
      )}
      {sides.some((one) => !isBare(one.thick.guess)) && children}
    </>
  );
}

/** Nothing to go by, however thick the bait is. */
function isBare(guess: ShopGuess): boolean {
  return guess.kind === 'no guess' && guess.why === 'no swatch';
}

/** A guess, and how it looks with its flake. */
interface Shown {
  guess: ShopGuess;
  look: FlakeLook | null;
}

interface SideProps {
  guesses: { side: MixSide; thick: Shown; thin: Shown; near: Near | null };
  isOnly: boolean;
  thick: number;
  thin: number;
  unit: LengthUnit;
  nameOf: (id: string) => string;
}

function SideGuess({ guesses, isOnly, thick, thin, unit, nameOf }: SideProps) {
  const { side } = guesses;
  const bare = [guesses.thick, guesses.thin].flatMap(({ guess }) =>
    guess.kind === 'no guess' && guess.why === 'no swatch' ? guess.colourantIds : [],
  );
  const wordsOf = (guess: ShopGuess) => guessWords(guess, nameOf, unit);
  const words = wordsOf(guesses.thick.guess);
  // What forbids a guess whatever the thickness is said once.
  const isRefused =
    guesses.thick.guess.kind === 'no guess' && words === wordsOf(guesses.thin.guess);
  const spots = [
    { word: 'Thick', mm: thick, ...guesses.thick },
    ...(thin === thick ? [] : [{ word: 'Thin', mm: thin, ...guesses.thin }]),
  ];
  return (
    <div class={styles.side}>
      {!isOnly && <h3>{side.name}</h3>}
      {isRefused && <p>{words}</p>}
      {(isRefused ? [] : spots).map(({ word, mm, guess, look }) =>
        guess.kind === 'guess' ? (
          <ColourSpot
            key={word}
            lab={look?.lab ?? guess.lab}
            isGuess
            words={`${word}, ${lengthWords(mm, unit)}`}
            small={[wordsOf(guess), flakeWords(look)].filter(Boolean).join(' ')}
          />
        ) : (
          <p key={word}>
            <b>
              {word}, {lengthWords(mm, unit)}.
            </b>{' '}
            {wordsOf(guess)}
          </p>
        ),
      )}
      {guesses.near && (
        <NearestPhoto photo={guesses.near.photo} part={guesses.near.part} isNearest />
      )}
      {[...new Set(bare)].map((id) => (
        <ActKey key={id} href={hrefTo({ at: 'card', materialId: id as MaterialId })}>
          {nameOf(id)} on the card
        </ActKey>
      ))}
    </div>
  );
}

function nameIn({ materials }: ColourShop, mix: Mix, id: string): string {
  const dose = mix.sides.flatMap(({ doses }) => doses).find(({ materialId }) => materialId === id);
  return materials.find((material) => material.id === id)?.name ?? dose?.name ?? 'A colourant';
}

/** A photo, and the part of its bait that looks most like a guess. */
interface Near {
  photo: Photo;
  part: PhotoReading['part'];
}

/** The own photo that looks most like a guess; null: there is no guess, or no photo was read. */
function nearestOwn({ photos }: ColourShop, guess: ShopGuess): Near | null {
  if (guess.kind !== 'guess') return null;
  const read = photos.flatMap((photo) =>
    photo.readings.flatMap(({ part, lab, fault }) =>
      fault === null && part !== 'line' ? [{ photo, part, lab }] : [],
    ),
  );
  const found = nearestPhoto(
    guess.lab,
    read.map(({ lab }) => lab),
  );
  return (found && read[found.at]) ?? null;
}

/** The newest photo of a colour, where none can be told to be near. */
function newestOf({ photos }: ColourShop, colourwayId: ColourwayId): Photo | null {
  const own = photos.filter((photo) => photo.colourwayId === colourwayId);
  return own.sort((x, y) => y.takenAt - x.takenAt)[0] ?? null;
}
