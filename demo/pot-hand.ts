import { shotMl } from '#calc/mould-size.ts';
import { potStateAt } from '#calc/pot-course.ts';
import { withMix } from '#calc/pot-mix.ts';
import type { Pot } from '#calc/table-pots.ts';
import type { PotId, SaidOf } from '#model/entry.ts';
import { newestOf } from './mixes.ts';
import { between, pass, type Scene, say, tableNow } from './scene.ts';
import { type ColourKey, settings } from './shop.ts';

/** One cup and two. */
const cupMl = 236.588237;
const drawableShare = 0.95;
const heatAgainMin = 14;

/** What is said when a colourway of the shop is mixed fresh. */
export function mixSaid(scene: Scene, key: ColourKey): SaidOf<'pot-mixed'> {
  const colourway = scene.shop.colourways[key];
  const { id, name, sides } = colourway;
  const said: SaidOf<'pot-mixed'> = {
    kind: 'pot-mixed',
    colourwayId: id,
    name,
    isAlone: true,
    pots: sides.map((side, slot) => ({
      potId: scene.log.pen.freshId<PotId>(scene.now),
      slot,
      ...side,
      volumeMl: settings.potMl,
      meanHeats: 0,
      maxHeats: 0,
    })),
  };
  const mix = newestOf(scene.shop.mixes, colourway);
  if (!mix) return said;
  // The jug is filled to its mark, a little less or more than the drops would like.
  const poured = withMix(said, mix).pots;
  const pots = said.pots.map((pot, at) => ({ ...pot, mix: poured[at]?.mix ?? null }));
  return { ...said, pots };
}

/** Brings the pots to where a round can be drawn: the next colour, a top-up, or a reheat. */
export function readyPots(scene: Scene, round: number): void {
  const { colourways, rounds } = scene.plan;
  const colourOf = (at: number) => colourways[Math.floor(((at - 1) * colourways.length) / rounds)];
  const next = colourOf(round);
  if (round > 1 && next !== undefined && next !== colourOf(round - 1)) {
    pass(scene, between(scene.chance, 150, 240));
    say(scene, mixSaid(scene, next));
    pass(scene, 20);
    return;
  }
  for (const pot of tableNow(scene).potsInUse) readyPot(scene, pot);
}

/** Reads every pot in use with the thermometer. */
export function readPots(scene: Scene): void {
  for (const pot of tableNow(scene).potsInUse) {
    const tempC = Math.round(between(scene.chance, 161, 171));
    say(scene, { kind: 'pot-read', potId: pot.id, tempC });
    pass(scene, 6);
  }
}

function readyPot(scene: Scene, pot: Pot): void {
  const table = tableNow(scene);
  const state = potStateAt(pot, table.pourC, scene.now);
  const roundMl = table.seats.reduce((sum, { mould }) => sum + shotMl(mould), 0);
  if (state.volumeMl * drawableShare < roundMl / table.potsInUse.length) {
    const isRemelt = scene.chance() < 0.5;
    const heats = isRemelt ? 1 + Math.floor(scene.chance() * 2) : 0;
    const volumeMl = cupMl * (scene.chance() < 0.5 ? 1 : 2);
    const what = { potId: pot.id, volumeMl, meanHeats: heats, maxHeats: heats };
    say(scene, { kind: 'pot-topped-up', ...what });
    pass(scene, between(scene.chance, 90, 140));
    say(scene, { kind: 'pot-heated', potId: pot.id });
  } else if (scene.now - state.lastHeatedAt > heatAgainMin * 60_000) {
    pass(scene, between(scene.chance, 35, 55));
    say(scene, { kind: 'pot-heated', potId: pot.id });
  } else return;
  pass(scene, 5);
}
