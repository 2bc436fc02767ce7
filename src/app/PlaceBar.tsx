import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import { hrefTo, type Route } from '#screens/routes.ts';
import { placesOf } from '#store/footing.ts';
import { type Drawing, Icon } from '#ui/Icon.tsx';
import styles from './PlaceBar.module.css';

interface Place {
  word: string;
  icon: Drawing;
  route: Route;
  /** Pages that belong to the place. */
  holds: readonly Route['at'][];
}

const pour: Place = {
  word: 'Pour',
  icon: 'pour',
  route: { at: 'pour' },
  holds: ['pour', 'day', 'session'],
};
const moulds: Place = {
  word: 'Moulds',
  icon: 'moulds',
  route: { at: 'moulds' },
  holds: ['moulds', 'mould', 'mould-facts', 'yields'],
};
const colours: Place = {
  word: 'Colours',
  icon: 'colours',
  route: { at: 'colours' },
  holds: [
    'colours',
    'colour',
    'colour-facts',
    'mix-facts',
    'nameless',
    'share-mix',
    'take-mix',
    'ideas',
    'find-photo',
    'photos',
    'photo',
    'card',
  ],
};
const shelf: Place = {
  word: 'Shelf',
  icon: 'shelf',
  route: { at: 'shelf' },
  holds: ['shelf', 'material', 'material-facts', 'bait-cost'],
};

/** The places of the shop that hold something. */
export function PlaceBar({ at }: { at: Route['at'] }) {
  const { book } = useShop();
  const held = useLive(
    () => placesOf(book),
    ['moulds', 'colourways', 'mixes', 'materials'],
    'places',
  );
  const places = [
    pour,
    ...(held?.hasMoulds ? [moulds] : []),
    ...(held?.hasColours ? [colours] : []),
    ...(held?.hasMaterials ? [shelf] : []),
  ];
  return (
    <nav class={styles.bar} aria-label="Places" style={{ '--places': places.length }}>
      {places.map(({ word, icon, route, holds }) => (
        <a key={word} href={hrefTo(route)} aria-current={holds.includes(at) ? 'page' : undefined}>
          <Icon of={icon} />
          {word}
        </a>
      ))}
    </nav>
  );
}
