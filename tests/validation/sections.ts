import { axles } from './axles.ts';
import type { Section } from './check.ts';
import { design, forces, rates, sizing, survey } from './coilovers.ts';
import { corners, limits, sureness } from './corners.ts';
import { laws } from './laws.ts';
import { linkages } from './linkages.ts';
import { files, judges, numerics } from './numerics.ts';

/** The page, in its order. */
export const SECTIONS: readonly Section[] = [
  linkages,
  corners,
  axles,
  limits,
  forces,
  rates,
  sizing,
  sureness,
  survey,
  design,
  numerics,
  files,
  judges,
  laws,
];

/** Files under tests/ without a check: words, refusals, layout, and the tests of what is for testing. */
export const WITHOUT: readonly string[] = [
  'architecture.test.ts',
  'axle/errors.test.ts',
  'diagnostic.test.ts',
  'doc-comments.test.ts',
  'document/guide-tables.test.ts',
  'coilover/findings.test.ts',
  'numerics/lagrangian.test.ts',
  'numerics/plane.test.ts',
  'corner/every-kind.test.ts',
  'corner/limits-words.test.ts',
  'document/accepts.test.ts',
  'document/errors.test.ts',
  'document/former-names.test.ts',
  'document/kinds.test.ts',
  'document/many-mistakes.test.ts',
  'document/plausible.test.ts',
  'editor.test.ts',
  'linkage/not-a-motion.test.ts',
  'linkage/strict-input.test.ts',
  'new-kind.test.ts',
  'messages/page.test.ts',
  'given-text.test.ts',
  'linkage/errors.test.ts',
  'linkage/examples.test.ts',
  'names.test.ts',
  'readme.test.ts',
  'command/command.test.ts',
  'command/order.test.ts',
  'report/axle-pictures.test.ts',
  'report/design.test.ts',
  'report/hand-method.test.ts',
  'report/labels.test.ts',
  'report/order-pictures.test.ts',
  'report/order-print.test.ts',
  'report/order.test.ts',
  'report/pictures.test.ts',
  'report/random-pictures.test.ts',
  'report/scaling.test.ts',
  'report/survey-pictures.test.ts',
  'report/summary.test.ts',
  'survey/checks.test.ts',
  'report/svg.test.ts',
  'report/table.test.ts',
  'setup.test.ts',
  'testing/arbitraries.test.ts',
  'testing/guide.test.ts',
  'testing/laws.test.ts',
  'testing/injected-faults.test.ts',
  'testing/continuous.test.ts',
  'validation/list.test.ts',
];
