import { loadPictureWork } from '#platform/pictures.ts';
import type { Route } from '#screens/routes.ts';
import { tablePanels } from '#screens/table/late-panels.ts';
import { late } from '#ui/late.tsx';

const PourScreen = late(async () => (await import('#screens/pour/PourScreen.tsx')).PourScreen);
const StartScreen = late(async () => (await import('#screens/start/StartScreen.tsx')).StartScreen);
const CautionsScreen = late(
  async () => (await import('#screens/start/CautionsScreen.tsx')).CautionsScreen,
);
const LineUpScreen = late(
  async () => (await import('#screens/start/LineUpScreen.tsx')).LineUpScreen,
);
const DayScreen = late(async () => (await import('#screens/pour/DayScreen.tsx')).DayScreen);
const SessionScreen = late(
  async () => (await import('#screens/pour/SessionScreen.tsx')).SessionScreen,
);
const MouldsScreen = late(
  async () => (await import('#screens/moulds/MouldsScreen.tsx')).MouldsScreen,
);
const MouldScreen = late(async () => (await import('#screens/moulds/MouldScreen.tsx')).MouldScreen);
const MouldFactsScreen = late(
  async () => (await import('#screens/moulds/MouldFactsScreen.tsx')).MouldFactsScreen,
);
const YieldsScreen = late(
  async () => (await import('#screens/yields/YieldsScreen.tsx')).YieldsScreen,
);
const ColoursScreen = late(
  async () => (await import('#screens/colours/ColoursScreen.tsx')).ColoursScreen,
);
const ColourFactsScreen = late(
  async () => (await import('#screens/colours/ColourFactsScreen.tsx')).ColourFactsScreen,
);
const PhotosScreen = late(
  async () => (await import('#screens/photos/PhotosScreen.tsx')).PhotosScreen,
);
const PhotoScreen = late(async () => (await import('#screens/photos/PhotoScreen.tsx')).PhotoScreen);
const FindScreen = late(async () => (await import('#screens/photos/FindScreen.tsx')).FindScreen);
const CardScreen = late(async () => (await import('#screens/photos/CardScreen.tsx')).CardScreen);
const ShelfScreen = late(async () => (await import('#screens/shelf/ShelfScreen.tsx')).ShelfScreen);
const MaterialScreen = late(
  async () => (await import('#screens/shelf/MaterialScreen.tsx')).MaterialScreen,
);
const MaterialFactsScreen = late(
  async () => (await import('#screens/shelf/MaterialFactsScreen.tsx')).MaterialFactsScreen,
);
const BaitCostScreen = late(
  async () => (await import('#screens/shelf/BaitCostScreen.tsx')).BaitCostScreen,
);
const ColourScreen = late(
  async () => (await import('#screens/colours/ColourScreen.tsx')).ColourScreen,
);
const MixFactsScreen = late(
  async () => (await import('#screens/colours/MixFactsScreen.tsx')).MixFactsScreen,
);
const NamelessScreen = late(
  async () => (await import('#screens/colours/NamelessScreen.tsx')).NamelessScreen,
);
const DropsScreen = late(
  async () => (await import('#screens/colours/DropsScreen.tsx')).DropsScreen,
);
const ShareMixScreen = late(
  async () => (await import('#screens/colours/ShareMixScreen.tsx')).ShareMixScreen,
);
const TakeMixScreen = late(
  async () => (await import('#screens/colours/TakeMixScreen.tsx')).TakeMixScreen,
);
const IdeasScreen = late(
  async () => (await import('#screens/colours/IdeasScreen.tsx')).IdeasScreen,
);
const WorkshopScreen = late(
  async () => (await import('#screens/workshop/WorkshopScreen.tsx')).WorkshopScreen,
);
const InjectorFactsScreen = late(
  async () => (await import('#screens/workshop/InjectorFactsScreen.tsx')).InjectorFactsScreen,
);
const GloveCheckScreen = late(
  async () => (await import('#screens/checks/GloveCheckScreen.tsx')).GloveCheckScreen,
);
const SoundCheckScreen = late(
  async () => (await import('#screens/checks/SoundCheckScreen.tsx')).SoundCheckScreen,
);
const PedalCheckScreen = late(
  async () => (await import('#screens/checks/PedalCheckScreen.tsx')).PedalCheckScreen,
);
const KeepScreen = late(async () => (await import('#screens/keep/KeepScreen.tsx')).KeepScreen);
const OpenCopyScreen = late(
  async () => (await import('#screens/keep/OpenCopyScreen.tsx')).OpenCopyScreen,
);
const TablesScreen = late(
  async () => (await import('#screens/keep/TablesScreen.tsx')).TablesScreen,
);

const afterwards = [
  ...tablePanels,
  PourScreen,
  StartScreen,
  CautionsScreen,
  LineUpScreen,
  DayScreen,
  SessionScreen,
  MouldsScreen,
  MouldScreen,
  MouldFactsScreen,
  YieldsScreen,
  ColoursScreen,
  ColourFactsScreen,
  PhotosScreen,
  PhotoScreen,
  CardScreen,
  ShelfScreen,
  MaterialScreen,
  MaterialFactsScreen,
  BaitCostScreen,
  ColourScreen,
  MixFactsScreen,
  NamelessScreen,
  DropsScreen,
  ShareMixScreen,
  TakeMixScreen,
  IdeasScreen,
  WorkshopScreen,
  InjectorFactsScreen,
  GloveCheckScreen,
  SoundCheckScreen,
  PedalCheckScreen,
  KeepScreen,
  OpenCopyScreen,
  TablesScreen,
];

/** Fetches every later screen: an update that another window takes may clear the files away. */
export function loadLaterScreens(): void {
  for (const screen of afterwards) screen.load();
  void loadPictureWork().catch(() => {});
}

/** The screen of a route other than the table's. */
export function Screen({ route }: { route: Exclude<Route, { at: 'table' }> }) {
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
