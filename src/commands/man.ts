/** `saggar man`: the manual page, for man to show. */
import { printedLayout } from '../render/printable.ts';
import { manPage } from './man-page.ts';
import { EXIT, type Command } from './world.ts';

/** Prints the page as roff: `saggar man | man -l -` shows it. */
export const man: Command = (_, world) => {
  world.write(printedLayout(manPage()));
  return Promise.resolve(EXIT.fine);
};
