/** The sources, by the names that rows call them by. Whether they were read stands with each row. */
export const SOURCES: Readonly<Record<string, string>> = {
  Andrews:
    'Test Set for IVP Solvers (F. Mazzia, C. Magherini, University of Bari / INdAM), "Andrews\' squeezing mechanism", 16 to 30 digits',
  'Barton & Fieldhouse': 'D. C. Barton, J. D. Fieldhouse, "Automotive Chassis Engineering", 2018',
  'Beer & Johnston':
    'F. P. Beer, E. R. Johnston and others, "Vector Mechanics for Engineers: Statics" and "Dynamics"',
  'Bažant & Cedolin':
    'Z. P. Bažant, L. Cedolin, "Stability of Structures", as quoted at pont.ist/von-mises-truss',
  Bevan: 'T. Bevan, "The Theory of Machines"',
  'Bird & Ross': 'J. Bird, C. Ross, "Mechanical Engineering Principles"',
  Bhandari: 'V. B. Bhandari, "Design of Machine Elements"',
  Dixon: 'J. C. Dixon, "The Shock Absorber Handbook"',
  'EN 13906-1': 'EN 13906-1:2013, compression springs of round wire',
  Gere: 'J. M. Gere, B. J. Goodno, "Mechanics of Materials"',
  Gillespie: 'T. D. Gillespie, "Fundamentals of Vehicle Dynamics", 1992',
  Gray: 'R. Gray, "Finding the height of the center of gravity by measuring weight change when tilting the vehicle", 1997',
  Halliday: 'D. Halliday, R. Resnick, J. Walker, "Fundamentals of Physics"',
  Hibbeler: 'R. C. Hibbeler, "Engineering Mechanics: Statics" and "Dynamics"',
  'ISO 12240': 'ISO 12240-1 and -4, spherical plain bearings and rod ends',
  'Khurmi & Gupta': 'R. S. Khurmi, J. K. Gupta, "Theory of Machines"',
  LCBP: 'Library of Computational Benchmark Problems, multibody dynamics (IFToMM)',
  'Meriam & Kraige': 'J. L. Meriam, L. G. Kraige, "Engineering Mechanics: Dynamics"',
  'ml-matrix':
    '`ml-matrix`, dense linear algebra; the library takes its singular values from it, not its elimination',
  mpmath: '`mpmath`, arithmetic of any length: poses with 50 digits by `fixtures/make-corners.py`',
  Nikravesh: 'P. Nikravesh, data of his programs',
  'NIST SP 811': 'NIST Special Publication 811, units',
  'NIST StRD': 'NIST Statistical Reference Datasets, nonlinear regression',
  Norton: 'R. L. Norton, "Design of Machinery"',
  OpenStax: 'OpenStax, "College Physics"',
  planegcs: '`@salusoft89/planegcs` 1.3.0, a general 2D constraint solver',
  Roark: 'R. J. Roark and others, "Formulas for Stress and Strain", as copied at eng-calculations.com',
  Rosenbrock:
    'H. H. Rosenbrock, "An automatic method for finding the greatest or least value of a function", 1960',
  Schaum: 'W. G. McLean, E. W. Nelson, Schaum\'s "Engineering Mechanics"',
  Shigley: 'R. G. Budynas, J. K. Nisbett, "Shigley\'s Mechanical Engineering Design"',
  Singh: 'Sadhu Singh, "Machine Design"',
  'UN Regulation 30': 'UN Regulation No. 30, tyres, with its table of rims',
  Vega: '`vega-lite` 5.23 and `vega` 5.33',
  Wentzell: 'T. H. Wentzell, "Machine Design"',
};
