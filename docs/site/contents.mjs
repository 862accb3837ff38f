// The order of the pages: groups of the sidebar, each page by its file in docs and its title there.

/** @type {{ text: string, pages: [file: string, text: string][] }[]} */
export const CONTENTS = [
  {
    text: 'Tutorial',
    pages: [
      ['first-corner', 'Your first corner in ten minutes'],
      ['tape-to-order', 'From tape to order in an hour'],
      ['first-linkage', 'Your first linkage'],
    ],
  },
  {
    text: 'How-to',
    pages: [
      ['quick-start', 'Quick start'],
      ['measuring', 'Measure a corner'],
      ['sizing', 'Size coilovers'],
      ['limits', 'Travel limits'],
      ['design', 'Move a mount'],
      ['forces', 'Forces in joints and mounts'],
      ['axle', 'The axle in heave and roll'],
      ['sensitivities', 'Which reading matters most'],
      ['command', 'The command'],
      ['notebooks', 'Notebooks'],
      ['scaling', 'Many cars'],
      ['custom-linkages', 'Linkages of your own'],
      ['joints', 'Joints'],
      ['synthesis', 'Extremes and synthesis'],
      ['testing', 'Property tests'],
    ],
  },
  {
    text: 'Reference',
    pages: [
      ['definitions', 'Definitions, units and signs'],
      ['car-file', 'The car file'],
      ['corner-file', 'The corner file'],
      ['survey-file', 'The survey file'],
      ['glossary', 'Glossary'],
      ['messages', 'Messages by code'],
      ['promises', 'What is promised'],
      ['api/', 'API'],
    ],
  },
  {
    text: 'Explanation',
    pages: [
      ['hand-method', 'The hand method and its error'],
      ['planar-model', 'The planar model'],
      ['solver', 'The solver'],
      ['validation', 'Validation'],
      ['mutation', 'Mutation testing'],
      ['benchmarks', 'Speed'],
    ],
  },
  {
    text: 'The project',
    pages: [
      ['contributors', 'For contributors'],
      ['changelog', 'Changes'],
    ],
  },
];
