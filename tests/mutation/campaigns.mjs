/** @typedef {{ code: string[], but?: string[], judges: string[], without?: string[] }} Campaign */

/** What pushes a coilover apart: it lies with the corner, and the tests of the coilover judge it. */
const FORCES = ['axial-force.ts', 'spring-stack.ts'];

/** Tests that compare with another program: they need its WebAssembly, and others judge the same. */
const PLANEGCS = ['linkage/grown-planegcs', 'linkage/excavator', 'corner/planegcs', 'axle/planegcs'];

/**
 * What is mutated, but for some files, and the tests that judge it, but for some. `document/inputs.ts` is written from the schemas, and holds types alone.
 * @type {Record<string, Campaign>}
 */
export const campaigns = {
  document: {
    code: ['src/document'],
    but: ['inputs.ts'],
    judges: ['document', 'axle/bar-in-file.test.ts'],
    without: ['document/guide-tables'],
  },
  survey: { code: ['src/survey'], judges: ['survey', 'document/uncertain.test.ts'] },
  design: { code: ['src/design'], judges: ['design'] },
  axle: { code: ['src/axle'], judges: ['axle'], without: PLANEGCS },
  numerics: { code: ['src/numerics'], judges: ['numerics'] },
  linkage: {
    code: ['src/linkage'],
    judges: ['linkage', 'corner/lengths.test.ts'],
    without: [...PLANEGCS, 'linkage/examples'],
  },
  corner: {
    code: ['src/corner'],
    but: FORCES,
    judges: ['corner', 'document', 'survey/write-surveyed-corner.test.ts'],
    without: [...PLANEGCS, 'document/json-schema', 'document/guide-tables'],
  },
  coilover: {
    code: ['src/coilover', ...FORCES.map((file) => `src/corner/${file}`)],
    judges: ['coilover'],
  },
  statics: {
    code: ['src/statics'],
    judges: [
      'linkage/statics.test.ts',
      'linkage/scissor-lift.test.ts',
      'linkage/equilibria.test.ts',
      'linkage/equilibria-from.test.ts',
      'linkage/follow-from.test.ts',
      'linkage/couplings.test.ts',
    ],
  },
  synthesis: { code: ['src/synthesis'], judges: ['synthesis'] },
};
