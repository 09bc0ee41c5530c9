/** Questions about what a gallery has sold. */
import { describe, expect, it } from 'vitest';
import { begin, press, type QuestionState } from '../../../src/entry/questions/asking.ts';
import { groundOf } from '../../../src/entry/questions/ground.ts';
import { recordScript } from '../../../src/entry/questions/record-script.ts';
import { openFolder, small } from '../../helpers/small-studio.ts';

const SENT = `c260401ab:
  date: 2026-04-01
  channel: gallery
  sent: [{ product: mug, count: 3, price: 40 }]
`;

async function atLines(): Promise<QuestionState> {
  const files = { 'consigned/2026.yaml': SENT };
  const words = ['--date', '2026-04-30', '--channel', 'gallery'];
  return begin(recordScript(groundOf(await openFolder(small(files)), { kind: 'sales', words })));
}

function reply(asking: QuestionState, ...lines: readonly string[]): QuestionState {
  return lines.reduce((state, text) => {
    const typed = press({ ...state, line: { text: '', at: 0 } }, { name: 'text', text });
    return press(typed, { name: 'enter', text: '' });
  }, asking);
}

describe('the questions about a sale by a gallery', () => {
  it('offer what stands there, and count it down', async () => {
    const asking = reply(await atLines(), '');
    const offered = ({ question }: QuestionState) =>
      question?.offers('').map(({ label, note }) => `${label}: ${note}`);
    expect(offered(asking)).toEqual([expect.stringMatching(/^1 mug: 3 there/)]);
    expect(offered(reply(asking, '2 mug at 40'))).toEqual([
      expect.stringMatching(/^1 mug: 1 there/),
    ]);
  });

  it('ask for its statement and take it as unpaid, also where no earlier sale says so', async () => {
    const asking = await atLines();
    expect(asking.question?.key).toBe('statement');
    const atPaid = reply(asking, '18', '1 mug at 40', '');
    expect([atPaid.question?.key, atPaid.question?.fallback]).toEqual(['paid', 'no']);
    const { answers } = reply(atPaid, '');
    expect(answers.flatMap(({ gives }) => gives)).toEqual(
      expect.arrayContaining(['--statement', '18', '--paid', 'no']),
    );
  });
});
