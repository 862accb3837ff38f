// The files that the figures begin with: the corner of the guides, and the same with its anti-roll bar.

const corner = {
  lowerArm: { inner: [255, 165], outer: [640, 150] },
  upperArm: { inner: [310, 355], outer: [600, 375] },
  wheel: { centre: [705, 312], camber: -0.5 },
  coilover: { on: 'lowerArm', mount: [505, 170], chassisMount: [345, 480] },
  limits: {
    damper: { extendedLength: 385, compressedLength: 300 },
    bumpStop: { height: 35, solidHeight: 12 },
  },
  sprungMass: 180,
};

const bar = {
  on: 'lowerArm',
  linkMount: [480, 175],
  leverEnd: [470, 330],
  leverLength: 180,
  roundBar: { diameter: 16, length: 800 },
};

export const EXAMPLES = { corner, axle: { ...corner, bar } };
