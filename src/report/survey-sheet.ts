import { sentence } from '../sentences/sentence.ts';
import { readingLabel } from '../sentences/survey.ts';
import type { Survey } from '../survey/result.ts';
import { numberIn, textIn, unitName } from '../units.ts';
import { spaced } from '../words.ts';
import { issueLine } from './issue-line.ts';
import { type Block, heading, list, type OrderSheet, table } from './order-sheet/blocks.ts';

/** A survey for reading, in the units of its document: what it has to say, the points, and each reading beside what it should have been. */
export function surveySheet(survey: Survey): OrderSheet {
  const { name, units, notes, diagnostics } = survey;
  return {
    title: name === undefined ? 'Survey' : `Survey: ${name}`,
    data: { ...survey },
    blocks: [
      list([...notes.map((one) => issueLine(one, units)), ...diagnostics.map((one) => sentence(one, units))]),
      heading(3, 'Points'),
      pointTable(survey),
      heading(3, 'Readings'),
      readingTable(survey),
    ],
  };
}

function pointTable({ points, units }: Survey): Block {
  const unit = unitName('length', units);
  const length = (mm: number | null) => (mm === null ? 'not determined' : numberIn(mm, 'length', units));
  return table(
    'Surveyed points',
    ['point', `y [${unit}]`, '±', `z [${unit}]`, '±'],
    Object.entries(points).map(
      ([
        name,
        {
          at: [y, z],
          plusMinus: [byY, byZ],
          status,
        },
      ]) => [
        spaced(name),
        length(y),
        status === 'known' ? 'known' : length(byY),
        length(z),
        status === 'known' ? 'known' : length(byZ),
      ],
    ),
  );
}

function readingTable({ readings, units }: Survey): Block {
  return table(
    'Readings',
    ['reading', 'read', 'computed', 'off by', '±', 'in its standard deviations'],
    readings.map(({ path, points, unit, measured, computed, residual, plusMinus, standardised }) => {
      const quantity = unit === 'mm' ? 'length' : 'angle';
      return [
        readingLabel(path, points),
        textIn(measured, quantity, units),
        ...[computed, residual, plusMinus].map((value) => numberIn(value, quantity, units)),
        standardised === null ? 'unchecked' : standardised.toFixed(1),
      ];
    }),
  );
}
