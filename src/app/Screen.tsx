import type { ComponentType } from 'preact';
import { loadPictureWork } from '#platform/pictures.ts';
import type { Route } from '#screens/routes.ts';
import { tablePanels } from '#screens/table/late-panels.ts';
import { late } from '#ui/late.tsx';
import { NumberPad } from '#ui/NumberPad.tsx';

/** What is fetched after the first paint; every page puts itself in. */
const afterwards: { load: () => void }[] = [...tablePanels];

/** A page that comes with its first visit, or before it when there is time. */
function page<Props extends object>(load: () => Promise<ComponentType<Props>>) {
  const screen = late(load);
  afterwards.push(screen);
  return screen;
}

const PourScreen = page(async () => (await import('#screens/pour/PourScreen.tsx')).PourScreen);
const StartScreen = page(async () => (await import('#screens/start/StartScreen.tsx')).StartScreen);
const CautionsScreen = page(
  async () => (await import('#screens/start/CautionsScreen.tsx')).CautionsScreen,
);
const LineUpScreen = page(
  async () => (await import('#screens/start/LineUpScreen.tsx')).LineUpScreen,
);
const DayScreen = page(async () => (await import('#screens/pour/DayScreen.tsx')).DayScreen);
const SessionScreen = page(
  async () => (await import('#screens/pour/SessionScreen.tsx')).SessionScreen,
);
const MouldsScreen = page(
  async () => (await import('#screens/moulds/MouldsScreen.tsx')).MouldsScreen,
);
const MouldScreen = page(async () => (await import('#screens/moulds/MouldScreen.tsx')).MouldScreen);
const MouldFactsScreen = page(
  async () => (await import('#screens/moulds/MouldFactsScreen.tsx')).MouldFactsScreen,
);
const YieldsScreen = page(
  async () => (await import('#screens/yields/YieldsScreen.tsx')).YieldsScreen,
);
const ColoursScreen = page(
  async () => (await import('#screens/colours/ColoursScreen.tsx')).ColoursScreen,
);
const ColourFactsScreen = page(
  async () => (await import('#screens/colours/ColourFactsScreen.tsx')).ColourFactsScreen,
);
const PhotosScreen = page(
  async () => (await import('#screens/photos/PhotosScreen.tsx')).PhotosScreen,
);
const PhotoScreen = page(async () => (await import('#screens/photos/PhotoScreen.tsx')).PhotoScreen);
const FindScreen = page(async () => (await import('#screens/photos/FindScreen.tsx')).FindScreen);
const CardScreen = page(async () => (await import('#screens/photos/CardScreen.tsx')).CardScreen);
const ShelfScreen = page(async () => (await import('#screens/shelf/ShelfScreen.tsx')).ShelfScreen);
const MaterialScreen = page(
  async () => (await import('#screens/shelf/MaterialScreen.tsx')).MaterialScreen,
);
const MaterialFactsScreen = page(
  async () => (await import('#screens/shelf/MaterialFactsScreen.tsx')).MaterialFactsScreen,
);
const BaitCostScreen = page(
  async () => (await import('#screens/shelf/BaitCostScreen.tsx')).BaitCostScreen,
);
const ColourScreen = page(
  async () => (await import('#screens/colours/ColourScreen.tsx')).ColourScreen,
);
const MixFactsScreen = page(
  async () => (await import('#screens/colours/MixFactsScreen.tsx')).MixFactsScreen,
);
const NamelessScreen = page(
  async () => (await import('#screens/colours/NamelessScreen.tsx')).NamelessScreen,
);
const DropsScreen = page(
  async () => (await import('#screens/colours/DropsScreen.tsx')).DropsScreen,
);
const ShareMixScreen = page(
  async () => (await import('#screens/colours/ShareMixScreen.tsx')).ShareMixScreen,
);
const TakeMixScreen = page(
  async () => (await import('#screens/colours/TakeMixScreen.tsx')).TakeMixScreen,
);
const IdeasScreen = page(
  async () => (await import('#screens/colours/IdeasScreen.tsx')).IdeasScreen,
);
const WorkshopScreen = page(
  async () => (await import('#screens/workshop/WorkshopScreen.tsx')).WorkshopScreen,
);
const InjectorFactsScreen = page(
  async () => (await import('#screens/workshop/InjectorFactsScreen.tsx')).InjectorFactsScreen,
);
const GloveCheckScreen = page(
  async () => (await import('#screens/checks/GloveCheckScreen.tsx')).GloveCheckScreen,
);
const SoundCheckScreen = page(
  async () => (await import('#screens/checks/SoundCheckScreen.tsx')).SoundCheckScreen,
);
const PedalCheckScreen = page(
  async () => (await import('#screens/checks/PedalCheckScreen.tsx')).PedalCheckScreen,
);
const KeepScreen = page(async () => (await import('#screens/keep/KeepScreen.tsx')).KeepScreen);
const OpenCopyScreen = page(
  async () => (await import('#screens/keep/OpenCopyScreen.tsx')).OpenCopyScreen,
);
const TablesScreen = page(
  async () => (await import('#screens/keep/TablesScreen.tsx')).TablesScreen,
);

/** Fetches every later screen: an update that another window takes may clear the files away. */
export function loadLaterScreens(): void {
  for (const screen of afterwards) screen.load();
  void loadPictureWork().catch(() => {});
}

interface Props {
  route: Exclude<Route, { at: 'table' }>;
}

/** The screen of a route other than the table's, with the digits for its number fields. */
export function Screen({ route }: Props) {
  return (
    <>
      <Page route={route} />
      <NumberPad />
    </>
  );
}

function Page({ route }: Props) {
  switch (route.at) {
    case 'pour':
      return <PourScreen />;
    case 'start':
      return <StartScreen />;
    case 'cautions':
      return <CautionsScreen />;
    case 'line-up':
      return <LineUpScreen key={route.like ?? ''} like={route.like ?? null} />;
    case 'day':
      return <DayScreen day={route.day} />;
    case 'session':
      return <SessionScreen sessionId={route.sessionId} />;
    case 'moulds':
      return <MouldsScreen />;
    case 'yields':
      return <YieldsScreen />;
    case 'mould':
      return <MouldScreen mouldId={route.mouldId} />;
    case 'mould-facts':
      return <MouldFactsScreen mouldId={route.mouldId} />;
    case 'colours':
      return <ColoursScreen />;
    case 'colour-facts':
      return <ColourFactsScreen colourwayId={route.colourwayId} />;
    case 'photos':
      return <PhotosScreen colourwayId={route.colourwayId} />;
    case 'photo':
      return <PhotoScreen photoId={route.photoId} />;
    case 'find-photo':
      return <FindScreen />;
    case 'card':
      return <CardScreen materialId={route.materialId} />;
    case 'shelf':
      return <ShelfScreen />;
    case 'material':
      return <MaterialScreen materialId={route.materialId} />;
    case 'material-facts':
      return <MaterialFactsScreen materialId={route.materialId} />;
    case 'bait-cost':
      return <BaitCostScreen />;
    case 'colour':
      return <ColourScreen colourwayId={route.colourwayId} />;
    case 'mix-facts':
      return <MixFactsScreen colourwayId={route.colourwayId} />;
    case 'nameless':
      return <NamelessScreen mixId={route.mixId} />;
    case 'drops':
      return <DropsScreen mixId={route.mixId} volumeMl={route.volumeMl} />;
    case 'share-mix':
      return <ShareMixScreen mixId={route.mixId} />;
    case 'take-mix':
      return <TakeMixScreen packed={route.packed} />;
    case 'ideas':
      return <IdeasScreen />;
    case 'workshop':
      return <WorkshopScreen />;
    case 'glove-check':
      return <GloveCheckScreen />;
    case 'sound-check':
      return <SoundCheckScreen />;
    case 'pedal-check':
      return <PedalCheckScreen />;
    case 'keep':
      return <KeepScreen />;
    case 'open-copy':
      return <OpenCopyScreen />;
    case 'tables':
      return <TablesScreen />;
    case 'injector-facts':
      return <InjectorFactsScreen injectorId={route.injectorId} />;
  }
}
