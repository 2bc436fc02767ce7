import { useState } from 'preact/hooks';
import { columnsOf } from '#calc/columns.ts';
import { clockText, dayOf } from '#calc/days.ts';
import { linesOf } from '#calc/log.ts';
import { byId, type NamesNow } from '#calc/names-now.ts';
import { roundsByPourer } from '#calc/pourers.ts';
import { scrapOf } from '#calc/scrap.ts';
import { pouredColours } from '#calc/session-counts.ts';
import { type Table, tableOf } from '#calc/table.ts';
import { totalOf, yieldsByMould } from '#calc/yields.ts';
import { useShop } from '#live/shop.ts';
import { useLive } from '#live/use-live.ts';
import type { Entry, SessionId } from '#model/entry.ts';
import type { Colourway } from '#model/gear.ts';
import type { Mix } from '#model/mix.ts';
import { NotHere } from '#screens/NotHere.tsx';
import { type Chosen, Entries } from '#screens/pour/Entries.tsx';
import { EveryShot } from '#screens/pour/EveryShot.tsx';
import { HeatPicture } from '#screens/pour/HeatPicture.tsx';
import { LaminateBalance } from '#screens/pour/LaminateBalance.tsx';
import { LeftInPots } from '#screens/pour/LeftInPots.tsx';
import { SessionPhotos } from '#screens/pour/SessionPhotos.tsx';
import { Totals } from '#screens/pour/Totals.tsx';
import { useWrites } from '#screens/pour/use-writes.ts';
import { hrefTo } from '#screens/routes.ts';
import { ScrapScale } from '#screens/ScrapScale.tsx';
import { countWords, dateWords } from '#screens/words.ts';
import { headsOf } from '#store/heads.ts';
import { entriesOf } from '#store/sessions.ts';
import { type SettingsFacts, settingsOf } from '#store/settings.ts';
import { ActKey } from '#ui/ActKey.tsx';
import { DeskPage } from '#ui/DeskPage.tsx';
import { ToolKey } from '#ui/ToolKey.tsx';
import styles from './Page.module.css';

/** Everything about one session, to be read and put right at any age. */
export function SessionScreen({ sessionId }: { sessionId: SessionId }) {
  const { book } = useShop();
  const found = useLive(
    async () => ({
      entries: await entriesOf(book, sessionId),
      settings: await settingsOf(book),
      colourways: await headsOf(book, 'colourways'),
      mixes: await headsOf(book, 'mixes'),
      names: byId(await headsOf(book, 'materials')),
    }),
    ['entries', 'sealed', 'settings', 'colourways', 'mixes', 'materials'],
    sessionId,
  );
  if (!found) return null;
  if (found.entries.length === 0) return <NotHere what="This session" />;
  return <Session sessionId={sessionId} {...found} />;
}

interface Props {
  sessionId: SessionId;
  entries: readonly Entry[];
  settings: SettingsFacts;
  colourways: readonly Colourway[];
  mixes: readonly Mix[];
  names: NamesNow;
}

function Session({ sessionId, entries, settings, colourways, mixes, names }: Props) {
  const { clock } = useShop();
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const writes = useWrites(sessionId);
  const table = tableOf(entries);
  const columns = columnsOf(sessionId, entries);
  const yields = yieldsByMould([columns]);
  const mainMould = yields.toSorted((a, b) => b.tally.shots - a.tally.shots)[0];
  const isOpen = table.endedAt === null;
  const shotOfChosen = table.shots.find(
    ({ loggedBy, filledBy }) => chosen && (loggedBy === chosen.id || filledBy === chosen.id),
  );
  const colours = pouredColours(columns).map(({ name }) => name);
  const day = dayOf(table.begunAt, table.zone);

  return (
    <DeskPage
      title={dateWords(day, dayOf(clock.now(), clock.zone()))}
      small={[hoursWords(table), ...colours, ...pourerWords(table)].join(', ')}
      tool={
        isOpen ? (
          <ToolKey href={hrefTo({ at: 'table' })} icon="back" word="Table" />
        ) : (
          <ToolKey href={hrefTo({ at: 'pour' })} icon="back" word="Pour" />
        )
      }
      shape="one"
    >
      <div class={styles.column}>
        {isOpen && (
          <ActKey size="main" small="This session is still open" href={hrefTo({ at: 'table' })}>
            Back to the table
          </ActKey>
        )}
        <Totals columns={[columns]} tally={totalOf(yields)} scrap={scrapOf(table)} />
        {!isOpen && <ScrapScale sessionId={sessionId} entries={entries} isFolded />}
        <LaminateBalance {...{ sessionId, table, entries, colourways, writes }} />
        {yields.length > 0 && (
          <EveryShot
            table={table}
            yields={yields}
            chosen={shotOfChosen ?? null}
            onPress={(mouldId, number) => {
              const shot = table.shots.find((s) => s.mouldId === mouldId && s.number === number);
              if (shot) setChosen({ id: shot.loggedBy ?? shot.filledBy, panel: null });
            }}
          />
        )}
        <SessionPhotos table={table} sessionId={sessionId} shot={shotOfChosen ?? null} />
        <LeftInPots {...{ table, entries, settings, writes }} />
        {mainMould && (
          <HeatPicture
            sessionId={sessionId}
            entries={entries}
            mould={mainMould}
            colourwayId={table.shots.at(-1)?.colourwayId ?? null}
            settings={settings}
            zone={table.zone}
          />
        )}
        {!isOpen && (
          <ActKey
            size="big"
            small="you choose what comes along"
            href={hrefTo({ at: 'line-up', like: sessionId })}
          >
            Pour this again
          </ActKey>
        )}
      </div>
      <Entries
        table={table}
        lines={linesOf(entries)}
        units={{ ...settings, names }}
        colourways={colourways}
        mixes={mixes}
        chosen={chosen}
        onChoose={setChosen}
        writes={writes}
      />
    </DeskPage>
  );
}

/** `Ada 6 rounds`, `Ben 4 rounds`; with one name just the name. */
function pourerWords({ pourers, shots }: Table): string[] {
  const each = roundsByPourer(pourers, shots);
  if (each.length < 2) return each.map(({ name }) => name);
  return each.map(({ name, rounds }) => `${name} ${countWords(rounds, 'round')}`);
}

function hoursWords({ begunAt, endedAt, zone }: Table): string {
  const from = clockText(begunAt, zone);
  return endedAt === null ? `From ${from}, still open` : `${from} to ${clockText(endedAt, zone)}`;
}
