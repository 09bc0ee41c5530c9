/** `saggar check --rules`: what every rule finds wrong, whatever the studio. */
import type { Rule } from '../../check/rule.ts';
import { READER_RULES, RULES } from '../../check/rules.ts';
import type { Table } from '../../report/table.ts';
import { CLOSED_PERIOD_CHANGED } from '../../review/closed/closed.ts';
import { compareTexts } from '../../text-order.ts';
import type { CommandOf } from '../catalogue.ts';
import { refuse, rendered } from '../reports/show.ts';
import { EXIT } from '../world.ts';

/** Lists the rules, by name. */
export const listRules: CommandOf<'check'> = async ({ options: { as } }, world) => {
  if (as === 'sarif' || as === 'annotations')
    return refuse(world, {
      refused: `--as ${as} is for problems: with --rules use text, json, csv, markdown or html`,
    });
  world.write(await rendered(ruleTable(), { as }, world));
  return EXIT.fine;
};

/** What is said of every rule, by name. */
export function everyRule(): readonly Pick<Rule, 'name' | 'severity' | 'about'>[] {
  return [...READER_RULES, ...RULES, CLOSED_PERIOD_CHANGED].sort((one, other) =>
    compareTexts(one.name, other.name),
  );
}

function ruleTable(): Table {
  return {
    report: 'rules',
    title: 'Rules that check knows',
    studio: '',
    asOf: '',
    currency: '',
    minorDigits: 0,
    columns: [
      { key: 'rule', title: 'Rule', type: 'id' },
      { key: 'severity', title: 'Severity', type: 'text' },
      { key: 'about', title: 'What is wrong', type: 'text' },
    ],
    rows: everyRule().map(({ name, severity, about }) => ({ rule: name, severity, about })),
    notes: [
      'Where a warning is right as it is, say why in its record under checked, by the name of the rule.',
    ],
  };
}
