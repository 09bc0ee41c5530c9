/** The days on which a class meets must agree with how often it meets, and with its first day. */
import { counted } from '../../in-words.ts';
import type { Day, StudioClass } from '../../book.ts';
import { inForce, placeInForce } from '../../in-force.ts';
import { spot, type Say } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const meetingsDiffer: Rule = {
  name: 'meetings-differ',
  severity: 'warning',
  about: 'The days on which a class meets do not agree with its sessions or its first day.',
  looks: [each('classes', lookAtClass)],
};

function lookAtClass(taught: StudioClass, { say }: { readonly say: Say }): void {
  lookAtDays(taught, '', say);
  for (const change of taught.changes ?? [])
    if (change.meets !== undefined || change.sessions !== undefined)
      lookAtDays(taught, change.from, say);
}

/** The meetings as they are planned on a day. */
function lookAtDays(taught: StudioClass, on: Day, say: Say): void {
  const { meets, sessions, starts } = inForce(taught, on);
  if (meets === undefined) return;
  const days = new Set(meets);
  const daysAt = placeInForce(taught, 'meets', on);
  if (sessions !== undefined && sessions !== days.size)
    say({
      at: spot(taught, ...placeInForce(taught, 'sessions', on)),
      message: `${taught.id} has ${counted(sessions, 'session')}, but meets on ${counted(days.size, 'day')}`,
      hint: 'correct the one or the other; without sessions its days alone count',
      related: [{ at: spot(taught, ...daysAt), message: 'the days' }],
    });
  meets.forEach((day, index) => {
    if (meets.indexOf(day) === index) return;
    say({
      at: spot(taught, ...daysAt, index),
      message: `${taught.id} meets on ${day} already`,
      hint: 'take the day out, or correct it',
    });
  });
  const [first = starts] = meets.toSorted();
  if (first === starts) return;
  say({
    at: spot(taught, 'starts'),
    message: `${taught.id} starts on ${starts}, but meets on ${first} first`,
    hint: 'correct one of the two dates',
    related: [{ at: spot(taught, ...daysAt), message: 'the days' }],
  });
}
