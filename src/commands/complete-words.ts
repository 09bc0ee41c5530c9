/** What the shells' scripts ask: how a command line can go on. */
import { printedLayout } from '../render/printable.ts';
import { answerWords } from './answer-words.ts';
import { EXIT, type Command } from './world.ts';

/**
 * Answers how the words of a line can go on from the last one, which may be empty. The first line says
 * what follows: `words`, `beginnings` (of words, so that no space goes behind one) or `folders`
 * (which the shell finds itself); then comes one answer a line, a tab, and what it is about. Of any
 * failure it says nothing: it is asked in the middle of a line.
 */
export const completeWords: Command = async ({ words }, world) => {
  try {
    world.write(printedLayout(await answerWords(words, world)));
  } catch {
    // There is nobody to tell.
  }
  return EXIT.fine;
};
