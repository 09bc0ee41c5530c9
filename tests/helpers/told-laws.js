// The last lines of `npm run long`: each law, how many cases it ran, and the seed that they come from.

import process from 'node:process';

/** @type {import('vitest/node').Reporter} */
export const toldLaws = {
  onTestRunEnd(modules) {
    const laws = modules.flatMap((module) =>
      [...module.children.allTests()].flatMap((test) =>
        (test.meta().laws ?? []).map(({ cases, seed }) => ({
          name: `${module.relativeModuleId}: ${test.fullName}`,
          cases,
          seed,
        })),
      ),
    );
    for (const { name, cases, seed } of laws)
      process.stdout.write(`${String(cases).padStart(7)} cases, seed ${seed}  ${name}\n`);
    const all = laws.reduce((sum, { cases }) => sum + cases, 0);
    process.stdout.write(`${all} cases of ${laws.length} laws\n`);
  },
};
