import { dayOf } from '#calc/days.ts';
import {
  minutesOutside,
  type PourWindow,
  type RunCourse,
  type RunPoint,
  runCourse,
} from '#calc/run-course.ts';
import { fFromC } from '#calc/units.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { ColourwayId } from '#model/gear.ts';
import type { MouldId } from '#model/mould.ts';
import { countWords, dateWords, tempWords } from '#screens/words.ts';
import { ofWords } from '#screens/yield-words.ts';
import { type GoodRun, goodRun } from '#store/good-run.ts';
import type { SettingsFacts } from '#store/settings.ts';
import { LineChart } from '#ui/LineChart.tsx';
import { Sheet } from '#ui/Sheet.tsx';
import { TwinTable } from '#ui/TwinTable.tsx';

interface Props {
  sessionId: SessionId;
  entries: readonly Entry[];
  mould: { mouldId: MouldId; name: string };
  colourwayId: ColourwayId | null;
  settings: SettingsFacts;
  zone: string;
}

/** How warm pot and mould were through the session, with a good session of the same mould behind it. */
export function HeatPicture({ sessionId, entries, mould, colourwayId, settings, zone }: Props) {
  const { book, clock } = useShop();
  const { mouldId, name } = mould;
  const run = useLive(
    async () => ({ good: await goodRun(book, { sessionId, mouldId, colourwayId }) }),
    ['columns'],
    `${sessionId} ${mouldId} ${colourwayId}`,
  );
  const own = runCourse(sessionId, entries, mouldId);
  if (own.mould.length < 2 || run === undefined) return null;
  const { good } = run;
  const { tempUnit, pourWindow: window = null } = settings;
  const ghost = good?.course ?? null;
  const today = dayOf(clock.now(), clock.zone());
  return (
    <Sheet title="Warmth">
      {own.pots.length > 0 && (
        <>
          <h3>Pot, read</h3>
          <Course
            {...{ tempUnit, window }}
            what="Pot"
            lines={own.pots.map(({ readings }) => readings)}
            ghosts={(ghost?.pots ?? []).map(({ readings }) => readings)}
          />
          {window ? (
            own.pots.map(({ name: pot, readings }) => (
              <p key={`${pot} ${readings[0]?.min}`}>
                {own.pots.length > 1 && `${pot}: `}
                {windowWords(readings, window, tempUnit)}
              </p>
            ))
          ) : (
            <p>Set your pouring window in Workshop to see minutes outside it.</p>
          )}
        </>
      )}
      <h3>{name} before each shot, worked out</h3>
      <Course
        {...{ tempUnit, window: null }}
        what={name}
        lines={[own.mould]}
        ghosts={ghost ? [ghost.mould] : []}
      />
      {good && (
        <p>
          <b>Dashed: {dateWords(dayOf(good.course.startedAt, zone), today)}</b>,{' '}
          {ofWords(good.good, good.checked)} good
          {good.isSameColour ? ' in this colour' : ''}. {nextStepWords(own, good)}
        </p>
      )}
    </Sheet>
  );
}

interface CourseProps {
  what: string;
  lines: readonly (readonly RunPoint[])[];
  ghosts: readonly (readonly RunPoint[])[];
  tempUnit: 'C' | 'F';
  /** The liked window that is drawn; null: none is. */
  window: PourWindow | null;
}

function Course({ what, lines, ghosts, tempUnit, window }: CourseProps) {
  const shown = (tempC: number) => (tempUnit === 'C' ? tempC : fFromC(tempC));
  const drawn = (runs: CourseProps['lines']) =>
    runs.map((run) => run.map(({ min, tempC }) => ({ x: min, y: shown(tempC) })));
  const inOrder = (runs: CourseProps['lines']) => runs.flat().sort((a, b) => a.min - b.min);
  const points = inOrder(lines);
  const ghost = inOrder(ghosts);
  const rows = points.map(({ min, tempC }) => [
    Math.round(min),
    tempWords(tempC, tempUnit),
    ...(ghost.length > 0 ? [ghostWords(ghost, min, tempUnit)] : []),
  ]);
  return (
    <>
      <LineChart
        lines={drawn(lines)}
        ghosts={drawn(ghosts)}
        band={window && { from: shown(window.fromC), to: shown(window.toC) }}
        across="minutes"
        label={`${what}: ${points
          .map(({ min, tempC }) => `${tempWords(tempC, tempUnit)} at ${Math.round(min)} min`)
          .join(', ')}`}
      />
      <TwinTable heads={['Minute', what, ...(ghost.length > 0 ? ['Good run'] : [])]} rows={rows} />
    </>
  );
}

/** What the good run stood at when the clock showed the same minute: its last point by then. */
function ghostWords(ghost: readonly RunPoint[], min: number, unit: 'C' | 'F'): string {
  const last = ghost.findLast((point) => point.min <= min);
  return last ? tempWords(last.tempC, unit) : '';
}

/** How long one pot lay outside the window, as far as it was read. */
function windowWords(readings: readonly RunPoint[], window: PourWindow, unit: 'C' | 'F'): string {
  if (readings.length < 2) return 'One reading: how long it stayed so was not read.';
  const { above, below } = minutesOutside(readings, window);
  const words = `your window, ${tempWords(window.fromC, unit)} to ${tempWords(window.toC, unit)}`;
  const parts = [
    ...(above >= 0.5 ? [`${countWords(Math.round(above), 'minute')} above`] : []),
    ...(below >= 0.5 ? [`${countWords(Math.round(below), 'minute')} below`] : []),
  ];
  return parts.length === 0
    ? `Inside ${words}, where it was read.`
    : `${parts.join(', ')} ${words}.`;
}

/** When the good run was reheated, seen from the round that an open session is in. */
function nextStepWords({ rounds, isOpen }: RunCourse, { course }: GoodRun): string {
  const [first] = course.reheatedAfter;
  if (first === undefined) return 'No pot was reheated.';
  const next = isOpen ? course.reheatedAfter.find((round) => round >= rounds) : undefined;
  const when = `A pot was reheated after round ${next ?? first}`;
  return next === undefined ? `${when}.` : `${when}; tonight has filled ${rounds}.`;
}
