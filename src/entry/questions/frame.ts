/** What is on the screen while questions are asked, before it is fitted to a terminal. */
import { fallbackOf, offersOf, pickedOf, type Asking } from './asking.ts';

/** A line that stays: an answer, and what stands at the right of it. */
export interface FrameLine {
  readonly left: string;
  readonly right: string;
}

/** A choice below the question. */
export interface FrameOffer {
  readonly label: string;
  readonly note: string;
}

/** The whole of it, from top to bottom. */
export interface Frame {
  readonly head: string;
  readonly done: readonly FrameLine[];
  readonly prompt: string;
  readonly about: string;
  readonly line: { readonly text: string; readonly at: number };
  readonly message: string;
  readonly offers: readonly FrameOffer[];
  readonly picked: number | undefined;
  readonly lift: number;
}

/** What stands above all questions, and above the answers. */
export interface Above {
  readonly head: string;
  readonly lines: readonly string[];
}

/** The frame of a state. */
export function frameOf(asking: Asking, { head, lines }: Above): Frame {
  const { question, answers, line, message, lift } = asking;
  const fallback = fallbackOf(asking);
  const inBrackets = fallback === '' ? '' : ` [${fallback}]`;
  return {
    head,
    done: [
      ...lines.map((left) => ({ left, right: '' })),
      ...answers.filter(({ text }) => text !== '').map(doneLine),
    ],
    prompt: question ? `${question.prompt}${inBrackets}` : '',
    about: question?.about ?? '',
    line,
    message,
    offers: offersOf(asking),
    picked: pickedOf(asking),
    lift,
  };
}

function doneLine({ prompt, left, right, isList }: Asking['answers'][number]): FrameLine {
  return { left: isList ? `  ${left}` : `${prompt}: ${left}`, right };
}
