import type { Sentences } from './say.ts';

/** What is said about masses, forces and the rates that a target asks for. */
export const LOADS: Sentences = {
  fractionOutOfRange: (say) => {
    const fraction = say.number('fraction');
    return {
      problem: 'a fraction outside 0 to 1',
      got: say.text('fraction'),
      allowed: '0 to 1',
      ...(fraction > 1 && fraction <= 100
        ? { advice: `if ${fraction} % is meant, write ${fraction / 100}` }
        : {}),
    };
  },
  noSprungMass: (say) => ({
    problem: 'the unsprung mass leaves no sprung mass',
    got: `${say.measure('unsprungMass', 'mass', 'wheelMass')} of ${say.measure('wheelMass', 'mass')} on the wheel`,
    allowed: `less than ${say.measure('wheelMass', 'mass', 'unsprungMass')}`,
    advice: 'check the masses and fractions of the car',
  }),
  coiloverCarriesNothing: (say) => ({
    problem: 'bump does not shorten the coilover at ride height: the coilover carries nothing',
    ...(say.has('ratio')
      ? { got: `an installation ratio of ${say.measure('ratio', 'ratio')}`, allowed: 'more than 0' }
      : {}),
    advice: 'check the mounts of the coilover',
  }),
  springCarriesNothing: (say) => ({
    problem: 'gas and bump stop carry more than the sprung mass at ride height',
    got: say.measure('gasAndStop', 'force', 'axialForce'),
    allowed: `less than ${say.measure('axialForce', 'force', 'gasAndStop')}, the axial force of the coilover`,
    advice: 'check gas, bump stop and sprung mass',
  }),
  targetNeedsNegativeSpring: (say) => ({
    problem: 'the target requires a spring of negative rate',
    got: `${say.measure('springRate', 'rate')} for ${say.measure('wheelRate', 'rate', 'without')} at the wheel`,
    allowed: `more than ${say.measure('without', 'rate', 'wheelRate')} at the wheel, which the changing ratio and the bump stop give without a spring`,
    advice: 'set a stiffer target, or move a mount',
  }),
  helperTooSoft: (say) => ({
    problem: 'the second spring still works at ride height and is softer than both springs together must be',
    got: say.measure('helperRate', 'rate', 'together'),
    allowed: `more than ${say.measure('together', 'rate', 'helperRate')}, or solid below ${say.measure('springForce', 'force')}`,
    advice: 'choose a softer or shorter helper, which is solid at ride height, or a stiffer tender',
  }),
  tyreRateMissing: () => ({
    problem: 'missing, though the target is a frequency with the tyre',
    allowed: 'a rate more than 0',
    advice: 'add it, or take out withTyre',
  }),
  frequencyAboveTyre: (say) => ({
    problem: 'the target frequency is more than the tyre alone gives',
    got: say.measure('frequency', 'frequency', 'max'),
    allowed: `less than ${say.measure('max', 'frequency', 'frequency')} with a tyre of ${say.measure('tyreRate', 'rate')}`,
    advice: 'set a lower target, or check the tyre rate',
  }),
  minLengthBelowSolid: (say) => ({
    problem: 'the minimum permissible length is less than the solid length',
    got: say.measure('minLength', 'length', 'solidLength'),
    allowed: `${say.measure('solidLength', 'length', 'minLength')} or more`,
    advice: 'correct one of the two lengths',
  }),
  springWithoutTravel: (say) => {
    const [name, words] = say.has('solidLength')
      ? ['solidLength', 'solid length']
      : ['minLength', 'minimum permissible length'];
    return {
      problem: `the ${words} leaves the spring no travel`,
      got: `${say.measure('freeLength', 'length', name)} free, ${say.measure(name, 'length', 'freeLength')} ${words}`,
      allowed: `more than ${say.measure(name, 'length', 'freeLength')}`,
      advice: 'check both lengths of the spring',
    };
  },
  bumpStopTableFalls: (say) => ({
    problem: 'the force table of the bump stop does not rise',
    got: `${say.measure('force', 'force', 'forceBefore')} at ${say.measure('compression', 'length', 'compressionBefore')}`,
    allowed: `more than ${say.measure('compressionBefore', 'length', 'compression')}, at least ${say.measure('forceBefore', 'force', 'force')}`,
    advice: 'list compression and force in rising order',
  }),
};
