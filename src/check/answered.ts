/** What `checked` in a record answers: warnings that its potter has looked at. */
import { KINDS, type Book, type AnswersChecked, type Entry, type Studio } from '../book.ts';
import { cached } from '../once.ts';
import type { Finding, Spot } from '../problem.ts';
import { nearest } from '../nearest.ts';
import { kindOfPath } from '../read/kinds.ts';
import { listed, spot } from './finding.ts';
import { each, type Rule } from './rule.ts';

/**
 * The findings without the warnings that their records answer; doubts say what an answer looks like,
 * and nothing of a figure that something else is wrong with.
 */
export function unanswered(all: readonly Finding[], book: Book): readonly Finding[] {
  const wrong = new Set(
    all.filter(({ figure }) => figure === undefined).map(({ at }) => spotKey(at)),
  );
  const findings = all.filter(({ figure, at }) => figure === undefined || !wrong.has(spotKey(at)));
  const figures = figuresDoubted(findings);
  return findings.flatMap((finding) => {
    const { at, rule, severity, figure, hint } = finding;
    if (severity !== 'warning' || !('path' in at)) return [finding];
    const checked = recordAt(book, at)?.checked;
    const answer = checked?.[rule];
    if (figure === undefined) return answer === undefined ? [finding] : [];
    if (answer !== undefined && namesFigure(answer, figure)) return [];
    const answering = `${rule}: "${listed(figures.get(recordKey(finding)) ?? [])}: your reason"`;
    return [
      {
        ...finding,
        hint: `${hint}; or, if ${figure} is right, ${howToAdd(answering, checked, answer)}`,
      },
    ];
  });
}

function spotKey(at: Finding['at']): string {
  return 'path' in at ? [at.file, ...at.path].join('\n') : '';
}

function howToAdd(answering: string, checked: AnswersChecked | undefined, answer?: string): string {
  if (answer !== undefined) return `write ${answering}`;
  return checked ? `add ${answering} to its checked` : `add checked: { ${answering} }`;
}

/** Record and rule → all figures that the rule doubts there. */
function figuresDoubted(findings: readonly Finding[]): ReadonlyMap<string, readonly string[]> {
  const figures = new Map<string, string[]>();
  for (const finding of findings) {
    if (finding.figure === undefined) continue;
    const known = figures.get(recordKey(finding)) ?? [];
    figures.set(recordKey(finding), [...new Set([...known, finding.figure])]);
  }
  return figures;
}

function recordKey({ at, rule }: Finding): string {
  return `${rule}\n${at.file}\n${'path' in at ? (at.path[0] ?? '') : ''}`;
}

/** A record that is only typed so far is in a file that tells no kind. */
function recordAt(book: Book, { file, path: [id] }: Spot): Entry | Studio | undefined {
  if (file === book.studio.file) return book.studio;
  const name = String(id);
  const kind = kindOfPath(file) ?? KINDS.find((each) => book[each].has(name));
  return kind && book[kind].get(name);
}

function namesFigure(answer: string, figure: string): boolean {
  const end = answer.indexOf(':');
  if (end === -1) return false;
  const named = answer.slice(0, end).split(/, | and /);
  return named.some((each) => plain(each) === plain(figure));
}

/** The same for a figure however many zeros it ends with. */
const plain = cached((figure: string) =>
  figure.trim().replace(/\d+(?:\.\d+)?/g, (number) => String(Number(number))),
);

/** The rule on answers themselves, made of the rules that can be answered. */
export function answerRule(rules: readonly Pick<Rule, 'name' | 'severity'>[]): Rule {
  const warnings = new Set(
    rules.filter(({ severity }) => severity === 'warning').map(({ name }) => name),
  );
  const names = new Set(rules.map(({ name }) => name));
  return {
    name: 'checked-in-vain',
    severity: 'warning',
    about:
      'An answer under checked names no rule of check, or one whose errors no reason can answer.',
    looks: [
      each(['studio', ...KINDS], ({ checked, ...record }, { say }) => {
        for (const name of Object.keys(checked ?? {})) {
          if (warnings.has(name)) continue;
          const near = nearest(name, warnings);
          say({
            at: { ...spot({ id: '', ...record }, 'checked', name), on: 'key' },
            message: names.has(name)
              ? `${name} finds errors, which have to be put right`
              : `check has no rule ${name}`,
            hint: near === undefined || names.has(name) ? 'take this one out' : `write ${near}`,
          });
        }
      }),
    ],
  };
}
