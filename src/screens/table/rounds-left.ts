import { heatFor, type LearntLoss, roundsFrom } from '#calc/loss.ts';
import { pouredFrom } from '#calc/pot-runs.ts';
import type { Table } from '#calc/table.ts';
import type { Pot } from '#calc/table-pots.ts';
import { roundPours } from '#screens/table/round.ts';
import type { Book } from '#store/book.ts';
import { lossOf } from '#store/loss.ts';

/** What a pot is still good for. */
export interface RoundsLeft {
  rounds: number;
  /** What a round takes of this pot, with what is lost, and what stays in pot and injector, mL. */
  eachMl: number;
  staysMl: number;
  /** Too few own pots stand behind it. */
  isGuess: boolean;
}

/** The sum of the rounds left; null where a round takes nothing. */
export type RoundsLeftOf = (table: Table, pot: Pot) => RoundsLeft | null;

/** The same with the loss that the pots of the whole history taught. */
export async function roundsLeftSum(book: Book): Promise<{ of: RoundsLeftOf }> {
  const learnt = await lossOf(book);
  return { of: (table, pot) => roundsLeftOf(learnt, table, pot) };
}

function roundsLeftOf(learnt: LearntLoss, table: Table, pot: Pot): RoundsLeft | null {
  const round = roundPours(table, Math.max(1, table.potsDrawn.length));
  const inMl = pot.course.reduce((sum, one) => sum + (one.kind === 'filled' ? one.volumeMl : 0), 0);
  const rounds = roundsFrom(learnt, inMl, round, pouredFrom(pot, table.shots));
  if (rounds === null) return null;
  const { heatMl, isGuess } = heatFor(learnt, round);
  const staysMl = Math.max(0, learnt.potMl);
  return { rounds, eachMl: Math.max(0, heatMl - staysMl), staysMl, isGuess };
}
