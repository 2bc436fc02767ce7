/** What stands round the pages of the desk, in one piece. */
export { Notices } from '#app/Notices.tsx';
export { PlaceBar } from '#app/PlaceBar.tsx';
