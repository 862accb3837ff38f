// Inputs and files, as their schemas have them. Written by `npm run schemas`; not to be edited.

/** A number that is known to plus or minus. */
export interface UncertainNumber {
  /** The number. Unit and sign: those of the field that it stands for. */
  readonly value: number;
  /** How far it may be off, to either side: half of the interval that holds it 95 times in 100. Unit: that of the value. */
  readonly plusMinus: number;
}

/** Hardpoints of a double wishbone, for `doubleWishbone`. */
export interface DoubleWishboneInput {
  /** An arm, from its chassis pivot (inner) to its ball joint (outer). */
  readonly lowerArm: ArmInput;
  /** An arm, from its chassis pivot (inner) to its ball joint (outer). */
  readonly upperArm: ArmInput;
  /** The wheel: its centre, and where it stands by camber or contactPatch. */
  readonly wheel: WheelInput;
  /** The coilover: what it stands on, and its two ends. */
  readonly coilover: CoiloverInput;
}

/** An arm, from its chassis pivot (inner) to its ball joint (outer). */
export interface ArmInput {
  /**
   * Chassis pivot of the arm: where its axis pierces the plane across the wheel centre. Point [y, z]: y
   * outboard from the centreline, z up from the ground; either may be { value, plusMinus }. Unit: mm, or in
   * (imperial).
   */
  readonly inner: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
  /**
   * Ball joint of the arm, where it meets the upright. Point [y, z]: y outboard from the centreline, z up
   * from the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly outer: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
}

/** The wheel: its centre, and where it stands by camber or contactPatch. */
export interface WheelInput {
  /**
   * Centre of the wheel, in its middle plane; as high as the loaded radius. Point [y, z]: y outboard from the
   * centreline, z up from the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly centre: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
  /** Camber as drawn: top outboard positive, so that a top leaning in is negative. Unit: deg. */
  readonly camber?: number | undefined;
  /**
   * Middle of the tyre on the ground, in place of camber or beside it. Point [y, z]: y outboard from the
   * centreline, z up from the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly contactPatch?: readonly [y: number | UncertainNumber, z: number | UncertainNumber] | undefined;
}

/** The coilover: what it stands on, and its two ends. */
export interface CoiloverInput {
  /** What the moving end of the coilover is bolted to: lowerArm, upperArm or upright. */
  readonly on: 'lowerArm' | 'upperArm' | 'upright';
  /**
   * Moving end of the coilover, middle of the bolt. Point [y, z]: y outboard from the centreline, z up from
   * the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly mount: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
  /**
   * Fixed end of the coilover on the chassis, middle of the bolt. Point [y, z]: y outboard from the
   * centreline, z up from the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly chassisMount?: readonly [y: number | UncertainNumber, z: number | UncertainNumber] | undefined;
  /** The other end of the coilover where that moves too, in place of chassisMount. */
  readonly otherEnd?: OtherEndInput | undefined;
  /** Fore-aft distance between the two ends, either sign; 0 if left out. Unit: mm, or in (imperial). */
  readonly foreAftOffset?: number | undefined;
}

/** The other end of the coilover where that moves too, in place of chassisMount. */
export interface OtherEndInput {
  /** What the other end of the coilover is bolted to: lowerArm, upperArm or upright. */
  readonly on: 'lowerArm' | 'upperArm' | 'upright';
  /**
   * Other end of the coilover, middle of the bolt. Point [y, z]: y outboard from the centreline, z up from
   * the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly mount: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
}

/** Hardpoints of a pushrod corner, for `pushrod`. */
export interface PushrodInput {
  /** An arm, from its chassis pivot (inner) to its ball joint (outer). */
  readonly lowerArm: ArmInput;
  /** An arm, from its chassis pivot (inner) to its ball joint (outer). */
  readonly upperArm: ArmInput;
  /** The wheel: its centre, and where it stands by camber or contactPatch. */
  readonly wheel: WheelInput;
  /** The pushrod or pullrod: what it stands on, and its two ends. */
  readonly rod: RodInput;
  /** The rocker between rod and coilover. */
  readonly rocker: RockerInput;
  /** The coilover: its end on the rocker, and its other one. */
  readonly coilover: RockerCoiloverInput;
}

/** The pushrod or pullrod: what it stands on, and its two ends. */
export interface RodInput {
  /** What the wheel end of the rod is bolted to: lowerArm, upperArm or upright. */
  readonly on: 'lowerArm' | 'upperArm' | 'upright';
  /**
   * Wheel end of the rod, middle of its joint. Point [y, z]: y outboard from the centreline, z up from the
   * ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly mount: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
  /**
   * Other end of the rod, on the rocker. Point [y, z]: y outboard from the centreline, z up from the ground;
   * either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly rockerMount: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
}

/** The rocker between rod and coilover. */
export interface RockerInput {
  /**
   * Pivot of the rocker on the chassis, middle of the bolt. Point [y, z]: y outboard from the centreline, z
   * up from the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly pivot: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
}

/** The coilover: its end on the rocker, and its other one. */
export interface RockerCoiloverInput {
  /**
   * End of the coilover on the rocker, middle of the bolt. Point [y, z]: y outboard from the centreline, z up
   * from the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly rockerMount: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
  /**
   * Fixed end of the coilover on the chassis, middle of the bolt. Point [y, z]: y outboard from the
   * centreline, z up from the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly chassisMount?: readonly [y: number | UncertainNumber, z: number | UncertainNumber] | undefined;
  /** The other end of the coilover where that moves too, in place of chassisMount. */
  readonly otherEnd?: OtherEndInput | undefined;
  /** Fore-aft distance between the two ends, either sign; 0 if left out. Unit: mm, or in (imperial). */
  readonly foreAftOffset?: number | undefined;
}

/** Hardpoints of a strut corner, for `strut`. */
export interface StrutInput {
  /** An arm, from its chassis pivot (inner) to its ball joint (outer). */
  readonly lowerArm: ArmInput;
  /** The strut: its top mount, and a point of its axis on the upright. */
  readonly strut: StrutMountsInput;
  /** The wheel: its centre, and where it stands by camber or contactPatch. */
  readonly wheel: WheelInput;
  /** A coilover beside the strut; if left out, spring and damper act along the strut from lower to top. */
  readonly coilover?: StrutCoiloverInput | undefined;
}

/** The strut: its top mount, and a point of its axis on the upright. */
export interface StrutMountsInput {
  /**
   * Top mount of the strut on the chassis, middle of its bearing. Point [y, z]: y outboard from the
   * centreline, z up from the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly topMount: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
  /**
   * A point on the axis of the strut, low on the upright; the spring and damper act from here. Point [y, z]:
   * y outboard from the centreline, z up from the ground; either may be { value, plusMinus }. Unit: mm, or in
   * (imperial).
   */
  readonly lowerMount: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
}

/** A coilover beside the strut; if left out, spring and damper act along the strut from lower to top. */
export interface StrutCoiloverInput {
  /** What the moving end of the coilover is bolted to: lowerArm or upright. */
  readonly on: 'lowerArm' | 'upright';
  /**
   * Moving end of the coilover, middle of the bolt. Point [y, z]: y outboard from the centreline, z up from
   * the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly mount: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
  /**
   * Fixed end of the coilover on the chassis, middle of the bolt. Point [y, z]: y outboard from the
   * centreline, z up from the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly chassisMount?: readonly [y: number | UncertainNumber, z: number | UncertainNumber] | undefined;
  /** The other end of the coilover where that moves too, in place of chassisMount. */
  readonly otherEnd?: StrutOtherEndInput | undefined;
  /** Fore-aft distance between the two ends, either sign; 0 if left out. Unit: mm, or in (imperial). */
  readonly foreAftOffset?: number | undefined;
}

/** The other end of the coilover where that moves too, in place of chassisMount. */
export interface StrutOtherEndInput {
  /** What the other end of the coilover is bolted to: lowerArm or upright. */
  readonly on: 'lowerArm' | 'upright';
  /**
   * Other end of the coilover, middle of the bolt. Point [y, z]: y outboard from the centreline, z up from
   * the ground; either may be { value, plusMinus }. Unit: mm, or in (imperial).
   */
  readonly mount: readonly [y: number | UncertainNumber, z: number | UncertainNumber];
}

/** The parts that points and bodies of a drawing play, for `customCorner`. */
export interface CustomPartsInput {
  /** Name of the body that carries the wheel. */
  readonly upright: string;
  /** Name of the point in the middle of the wheel, on the upright. */
  readonly wheelCentre: string;
  /** Name of the point in the middle of the tyre on the ground, on the upright. */
  readonly contactPatch: string;
  /** The points between which the coilover stands. */
  readonly shock: ShockInput;
  /** Two points of the axis about which the wheel steers; without it no kingpin inclination. */
  readonly kingpin?: KingpinInput | undefined;
  /** The rocker between wheel and coilover, for its angles and dead points. */
  readonly rocker?: RockerPartsInput | undefined;
  /**
   * Camber as drawn: top outboard positive; that of a thin disc on its contact patch if left out. Unit: deg.
   */
  readonly camber?: number | undefined;
  /** Further columns by name, in degrees, counter-clockwise positive. */
  readonly angles?: { readonly [name: string]: LineAngleInput | BodyTurnInput } | undefined;
}

/** The points between which the coilover stands. */
export interface ShockInput {
  /** Name of the end nearer to the wheel. */
  readonly outer: string;
  /** Name of the other end. */
  readonly inner: string;
  /** Fore-aft distance between the two ends, either sign; 0 if left out. Unit: mm, or in (imperial). */
  readonly foreAftOffset?: number | undefined;
}

/** Two points of the axis about which the wheel steers; without it no kingpin inclination. */
export interface KingpinInput {
  /** Name of the lower point. */
  readonly lower: string;
  /** Name of the upper point. */
  readonly upper: string;
}

/** The rocker between wheel and coilover, for its angles and dead points. */
export interface RockerPartsInput {
  /** Name of the rocker, a body. */
  readonly body: string;
  /** Name of its pivot, a ground point. */
  readonly pivot: string;
  /** The ends of the rod that works the rocker. */
  readonly rod: RodEndsInput;
}

/** The ends of the rod that works the rocker. */
export interface RodEndsInput {
  /** Name of the end on the part that moves with the wheel. */
  readonly outer: string;
  /** Name of the end on the rocker. */
  readonly inner: string;
}

/** The direction of a line as a column. */
export interface LineAngleInput {
  /** The two points of a line: its angle from horizontal, counter-clockwise positive. Unit: degrees. */
  readonly angle: readonly [string, string];
}

/** The turn of a body as a column. */
export interface BodyTurnInput {
  /** Name of a body: its angle from the drawn pose, counter-clockwise positive; degrees. */
  readonly turn: string;
}

/** What ends the travel of any corner. */
export interface TravelLimits {
  /** Remarks of yours, a text or a list of texts. They change nothing. */
  readonly notes?: string | readonly string[] | undefined;
  /** The damper to order: its extended and compressed length, eye to eye. */
  readonly damper?: DamperInput | undefined;
  /**
   * The bump stop on the shaft: contact at compressed length plus height; the travel ends at compressed
   * length plus solidHeight. Needs damper.
   */
  readonly bumpStop?: BumpStopInput | undefined;
  /**
   * Eye-to-eye length at which the spring has its minimum permissible length L_n; a sizing computes it from
   * its spring. Unit: mm, or in (imperial).
   */
  readonly springMinLengthAt?: number | undefined;
  /** The tyre: its overall radius and width, or the size on its sidewall, as "205/55R16". */
  readonly tyre?: TyreInput | string | undefined;
  /**
   * Points [y, z] of the wheel arch and of whatever else the tyre could touch: y outboard, z up from the
   * ground. Needs tyre. Unit: mm, or in (imperial).
   */
  readonly arch?: readonly (readonly [y: number, z: number])[] | undefined;
  /** Lowest points [y, z] of the chassis: y outboard, z up from the ground. Unit: mm, or in (imperial). */
  readonly chassisLowPoints?: readonly (readonly [y: number, z: number])[] | undefined;
  /**
   * Bearings at the ends of the coilover: mount (moving end) and chassis (fixed end), or otherEnd where that
   * moves too.
   */
  readonly bearings?: BearingsInput | undefined;
  /** Required wheel travel, for the margins against the available travel. */
  readonly required?: RequiredTravelInput | undefined;
  /** Donor damper: an existing unit, for comparison. */
  readonly donor?: Donor | undefined;
}

/** The damper to order: its extended and compressed length, eye to eye. */
export interface DamperInput {
  /** Eye-to-eye length, fully extended. Unit: mm, or in (imperial). */
  readonly extendedLength: number;
  /** Eye-to-eye length, fully compressed; less than extended. Unit: mm, or in (imperial). */
  readonly compressedLength: number;
}

/**
 * The bump stop on the shaft: contact at compressed length plus height; the travel ends at compressed length
 * plus solidHeight. Needs damper.
 */
export interface BumpStopInput {
  /** Free height of the bump stop. Unit: mm, or in (imperial). */
  readonly height: number;
  /** Height at which the bump stop is solid; less than height. Unit: mm, or in (imperial). */
  readonly solidHeight: number;
}

/** A tyre by its overall radius and width. */
export interface TyreInput {
  /** Radius of the unloaded tyre: half its overall diameter. Unit: mm, or in (imperial). */
  readonly overallRadius: number;
  /** Width over the sidewalls. Unit: mm, or in (imperial). */
  readonly width: number;
}

/**
 * Bearings at the ends of the coilover: mount (moving end) and chassis (fixed end), or otherEnd where that
 * moves too.
 */
export interface BearingsInput {
  /** Bearing at one end of the coilover. */
  readonly mount?: Bearing | undefined;
  /** Bearing at one end of the coilover. */
  readonly chassis?: Bearing | undefined;
  /** Bearing at one end of the coilover. */
  readonly otherEnd?: Bearing | undefined;
}

/** Bearing at one end of the coilover. */
export interface Bearing {
  /**
   * Direction of the bolt axis: longitudinal (swing of the coilover causes no misalignment) or inPlane, in
   * the transverse plane and square to the coilover (all swing is misalignment).
   */
  readonly boltAxis: 'longitudinal' | 'inPlane';
  /** Bearing rating: largest misalignment to either side. Unit: deg. */
  readonly maxMisalignment: number;
}

/** Required wheel travel, for the margins against the available travel. */
export interface RequiredTravelInput {
  /** Required bump travel from design ride height. Unit: mm, or in (imperial). */
  readonly bump?: number | undefined;
  /** Required droop travel from design ride height, as a positive number. Unit: mm, or in (imperial). */
  readonly droop?: number | undefined;
}

/** Donor damper: an existing unit, for comparison. */
export interface Donor {
  /**
   * Eye-to-eye length of the donor damper as it was fitted when the corner was drawn. Unit: mm, or in
   * (imperial).
   */
  readonly length: number;
  /** State in which that length was taken: extended, compressed, or measured at a length in between. */
  readonly state: 'extended' | 'compressed' | 'measured';
  /** Stroke: extended length minus compressed length. Unit: mm, or in (imperial). */
  readonly stroke?: number | undefined;
}

/** What ends the travel of a corner, for `limits`: mm and degrees. Leave out what you do not know. */
export interface LimitOptions extends TravelLimits {
  /**
   * Ball joints and rod ends by the point where they join two parts: lowerOuter, upperOuter; with a rocker
   * rodMount and rodRockerMount; in a drawing of your own any point that joins two bodies.
   */
  readonly ballJoints?: { readonly [name: string]: BallJoint | undefined } | undefined;
}

/** A ball joint: its largest articulation angle, and its axes at ride height. */
export interface BallJoint {
  /** Largest articulation angle: between the axes of stud and housing, to either side. Unit: deg. */
  readonly maxArticulation: number;
  /** What holds the housing: arm, upright, or a part by its name. The stud is bolted to the other. */
  readonly housing: string;
  /**
   * Axis of the housing, out of its mouth; along the stud if left out. Direction [y, z] at ride height, y
   * outboard, z up, of any length. Without unit.
   */
  readonly housingAxis?: readonly [y: number, z: number] | undefined;
  /**
   * Axis of the stud, towards its thread; along the housing if left out. Direction [y, z] at ride height, y
   * outboard, z up, of any length. Without unit.
   */
  readonly studAxis?: readonly [y: number, z: number] | undefined;
}

/** What ends the travel. Leave out what you do not know. */
export interface DoubleWishboneLimits extends TravelLimits {
  /** Ball joints at the outer ends of the arms. */
  readonly ballJoints?: DoubleWishboneBallJoints | undefined;
}

/** Ball joints at the outer ends of the arms. */
export type DoubleWishboneBallJoints = {
  /** A ball joint: its largest articulation angle, and its axes at ride height. */
  readonly lowerOuter?: ArmBallJoint | undefined;
  /** A ball joint: its largest articulation angle, and its axes at ride height. */
  readonly upperOuter?: ArmBallJoint | undefined;
};

/** A ball joint: its largest articulation angle, and its axes at ride height. */
export interface ArmBallJoint {
  /** Largest articulation angle: between the axes of stud and housing, to either side. Unit: deg. */
  readonly maxArticulation: number;
  /** What holds the housing: arm or upright. The stud is bolted to the other. */
  readonly housing: 'arm' | 'upright';
  /**
   * Axis of the housing, out of its mouth; along the stud if left out. Direction [y, z] at ride height, y
   * outboard, z up, of any length. Without unit.
   */
  readonly housingAxis?: readonly [y: number, z: number] | undefined;
  /**
   * Axis of the stud, towards its thread; along the housing if left out. Direction [y, z] at ride height, y
   * outboard, z up, of any length. Without unit.
   */
  readonly studAxis?: readonly [y: number, z: number] | undefined;
}

/** What ends the travel. Leave out what you do not know. */
export interface PushrodLimits extends TravelLimits {
  /** Ball joints at the outer ends of the arms, and at both ends of the rod. */
  readonly ballJoints?: PushrodBallJoints | undefined;
}

/** Ball joints at the outer ends of the arms, and at both ends of the rod. */
export type PushrodBallJoints = {
  /** A ball joint: its largest articulation angle, and its axes at ride height. */
  readonly lowerOuter?: ArmBallJoint | undefined;
  /** A ball joint: its largest articulation angle, and its axes at ride height. */
  readonly upperOuter?: ArmBallJoint | undefined;
  /** A ball joint: its largest articulation angle, and its axes at ride height. */
  readonly rodMount?: RodMountBallJoint | undefined;
  /** A ball joint: its largest articulation angle, and its axes at ride height. */
  readonly rodRockerMount?: RodRockerBallJoint | undefined;
};

/** A ball joint: its largest articulation angle, and its axes at ride height. */
export interface RodMountBallJoint {
  /** Largest articulation angle: between the axes of stud and housing, to either side. Unit: deg. */
  readonly maxArticulation: number;
  /** What holds the housing: rod, lowerArm, upperArm or upright. The stud is bolted to the other. */
  readonly housing: 'rod' | 'lowerArm' | 'upperArm' | 'upright';
  /**
   * Axis of the housing, out of its mouth; along the stud if left out. Direction [y, z] at ride height, y
   * outboard, z up, of any length. Without unit.
   */
  readonly housingAxis?: readonly [y: number, z: number] | undefined;
  /**
   * Axis of the stud, towards its thread; along the housing if left out. Direction [y, z] at ride height, y
   * outboard, z up, of any length. Without unit.
   */
  readonly studAxis?: readonly [y: number, z: number] | undefined;
}

/** A ball joint: its largest articulation angle, and its axes at ride height. */
export interface RodRockerBallJoint {
  /** Largest articulation angle: between the axes of stud and housing, to either side. Unit: deg. */
  readonly maxArticulation: number;
  /** What holds the housing: rod or rocker. The stud is bolted to the other. */
  readonly housing: 'rod' | 'rocker';
  /**
   * Axis of the housing, out of its mouth; along the stud if left out. Direction [y, z] at ride height, y
   * outboard, z up, of any length. Without unit.
   */
  readonly housingAxis?: readonly [y: number, z: number] | undefined;
  /**
   * Axis of the stud, towards its thread; along the housing if left out. Direction [y, z] at ride height, y
   * outboard, z up, of any length. Without unit.
   */
  readonly studAxis?: readonly [y: number, z: number] | undefined;
}

/** What ends the travel. Leave out what you do not know. */
export interface StrutLimits extends TravelLimits {
  /** The ball joint at the outer end of the arm. */
  readonly ballJoints?: StrutBallJoints | undefined;
}

/** The ball joint at the outer end of the arm. */
export type StrutBallJoints = {
  /** A ball joint: its largest articulation angle, and its axes at ride height. */
  readonly lowerOuter?: ArmBallJoint | undefined;
};

/** A spring by its wire: rate and solid length follow. */
export interface CoilSpringInput {
  /** Diameter of the wire. Unit: mm, or in (imperial). */
  readonly diameter: number;
  /** Mean diameter of the coils: from middle of wire to middle of wire. Unit: mm, or in (imperial). */
  readonly meanDiameter: number;
  /** Coils in all, with those at the ends that do not work. Without unit. */
  readonly totalCoils: number;
  /** How the coils end: closed and ground, closed, open and ground, open. */
  readonly ends: 'closedGround' | 'closed' | 'openGround' | 'open';
  /** Shear modulus of the wire; 81500 for spring steel if left out. Unit: N/mm^2, in any file. */
  readonly shearModulus?: number | undefined;
  /** Whether it was formed hot; cold if left out. */
  readonly hotFormed?: boolean | undefined;
}

/** What the coilover of this corner is sized by. Leave out what you do not know. */
export interface CornerSizingFile {
  /** Remarks of yours, a text or a list of texts. They change nothing. */
  readonly notes?: string | readonly string[] | undefined;
  /**
   * Mass of wheel, upright, brake and the shares of arms and coilover that move with them, of one corner.
   * Unit: kg, or lb (imperial).
   */
  readonly unsprungMass: number | UncertainNumber;
  /** What the spring is to give: a frequency, a rate at the wheel, or a rate of its own. */
  readonly target?: TargetInput | undefined;
  /** Rate of the tyre, upward. Unit: N/mm, or lbf/in (imperial). */
  readonly tyreRate?: number | UncertainNumber | undefined;
  /** Stiffness in roll that an anti-roll bar adds to this axle. Unit: N·m/deg, or lbf·ft/deg (imperial). */
  readonly antiRollBarStiffness?: number | UncertainNumber | undefined;
  /** The gas in the damper: its force, or shaftDiameter and pressure. */
  readonly gas?: GasInput | undefined;
  /** Available springs, to choose from. */
  readonly springs?: readonly SpringInput[] | undefined;
  /** Steps in which spring rates are available; common ones if left out. Unit: N/mm, or lbf/in (imperial). */
  readonly rateStep?: number | undefined;
  /** A second spring in series with the main one: a helper or tender. */
  readonly helper?: HelperInput | undefined;
  /**
   * Force of the bump stop at its compression: rows [compression, force], none negative. Units: mm and N, or
   * in and lbf (imperial).
   */
  readonly bumpStopTable?: readonly (readonly [compression: number, force: number])[] | undefined;
  /** The perch: the adjustable spring seat. */
  readonly perch?: PerchInput | undefined;
  /**
   * Smallest dead length that the maker can build: compressed length minus stroke. Unit: mm, or in
   * (imperial).
   */
  readonly deadLength?: number | undefined;
  /** What the damper is to give. */
  readonly damping?: DampingInput | undefined;
  /** Masses of the coilover: the new one, and the one that it replaces. */
  readonly unitMass?: UnitMassInput | undefined;
  /** What the order says besides the figures. */
  readonly order?: OrderInput | undefined;
}

/** What the spring is to give: a frequency, a rate at the wheel, or a rate of its own. */
export interface TargetInput {
  /** Frequency of the sprung mass at ride height. Unit: Hz. */
  readonly frequency?: number | UncertainNumber | undefined;
  /** Whether that is with the tyre as a spring in series; if left out, of the suspension alone. */
  readonly withTyre?: boolean | undefined;
  /** Rate at the wheel at ride height, without the tyre. Unit: N/mm, or lbf/in (imperial). */
  readonly wheelRate?: number | UncertainNumber | undefined;
  /** Rate of the spring itself. Unit: N/mm, or lbf/in (imperial). */
  readonly springRate?: number | UncertainNumber | undefined;
}

/** The gas in the damper: its force, or shaftDiameter and pressure. */
export interface GasInput {
  /** Force of the gas on the shaft, at ride height. Unit: N, or lbf (imperial). */
  readonly force?: number | UncertainNumber | undefined;
  /** Diameter of the shaft. Unit: mm, or in (imperial). */
  readonly shaftDiameter?: number | UncertainNumber | undefined;
  /** Pressure of the gas above the air, at ride height. Unit: bar, or psi (imperial). */
  readonly pressure?: number | UncertainNumber | undefined;
}

/** A spring that is available. */
export interface SpringInput {
  /** What you call it. */
  readonly name: string;
  /** Rate; that of the wire if left out. Unit: N/mm, or lbf/in (imperial). */
  readonly rate?: number | undefined;
  /** Free length L_0. Unit: mm, or in (imperial). */
  readonly freeLength: number;
  /** Solid length L_c, all coils touching. Unit: mm, or in (imperial). */
  readonly solidLength?: number | undefined;
  /** Minimum permissible length L_n, a little more than solid. Unit: mm, or in (imperial). */
  readonly minLength?: number | undefined;
  /** Inner diameter. Unit: mm, or in (imperial). */
  readonly innerDiameter?: number | undefined;
  /** A spring by its wire: rate and solid length follow. */
  readonly wire?: CoilSpringInput | undefined;
}

/** A second spring in series with the main one: a helper or tender. */
export interface HelperInput {
  /** Rate of the helper or tender spring. Unit: N/mm, or lbf/in (imperial). */
  readonly rate: number;
  /** Free length of the helper or tender spring. Unit: mm, or in (imperial). */
  readonly freeLength: number;
  /** Solid length L_c: all coils touch. Unit: mm, or in (imperial). */
  readonly solidLength: number;
  /** Thickness of the ring between the springs; 0 if left out. Unit: mm, or in (imperial). */
  readonly separatorHeight?: number | undefined;
}

/** The perch: the adjustable spring seat. */
export interface PerchInput {
  /**
   * Perch setting: eye-to-eye length minus spring length between its seats; if left out, the perch is set for
   * design ride height. Unit: mm, or in (imperial).
   */
  readonly setting?: number | UncertainNumber | undefined;
  /** Smallest setting within the thread. Unit: mm, or in (imperial). */
  readonly min?: number | undefined;
  /** Largest setting within the thread. Unit: mm, or in (imperial). */
  readonly max?: number | undefined;
  /** Travel of the perch per turn. Unit: mm, or in (imperial). */
  readonly threadPitch?: number | undefined;
}

/** What the damper is to give. */
export interface DampingInput {
  /** Damping ratio of the sprung mass at ride height, as 0.3. Without unit. */
  readonly ratio: number | UncertainNumber;
  /**
   * Fraction of compression in the sum of compression and rebound damping; 0.4 if left out (common practice).
   * Without unit.
   */
  readonly compressionFraction?: number | undefined;
  /** Shaft speed above which the force rises less. Unit: mm/s, or in/s (imperial). */
  readonly kneeSpeed?: number | undefined;
  /**
   * Slope of the force above the knee, as a fraction of the slope below it; 0.5 if left out (common
   * practice). Without unit.
   */
  readonly highSpeedFraction?: number | undefined;
  /**
   * Shaft speeds of the table; 25 to 500 mm/s, or 1 to 20 in/s, if left out. The knee has a row of its own.
   * Unit: mm/s, or in/s (imperial).
   */
  readonly shaftSpeeds?: readonly number[] | undefined;
}

/** Masses of the coilover: the new one, and the one that it replaces. */
export interface UnitMassInput {
  /** Mass of the new coilover with its spring. Unit: kg, or lb (imperial). */
  readonly new?: number | UncertainNumber | undefined;
  /** Mass of the coilover that it replaces. Unit: kg, or lb (imperial). */
  readonly replaced?: number | UncertainNumber | undefined;
}

/** What the order says besides the figures. */
export interface OrderInput {
  /** How many; to be agreed if left out. Without unit. */
  readonly quantity?: number | undefined;
  /** Whether left and right differ, and in what. */
  readonly handed?: string | undefined;
  /** Which end of the coilover the body of the damper is at: up (body up, shaft down) or down. */
  readonly bodyEnd?: 'up' | 'down' | undefined;
  /** The two ends of the coilover: mount is the moving one. */
  readonly mounts?: OrderMountsInput | undefined;
  /** Outer diameter of the body and its perch: springs must go over it. Unit: mm, or in (imperial). */
  readonly bodyDiameter?: number | undefined;
  /** Largest outer diameter of the spring for which there is room. Unit: mm, or in (imperial). */
  readonly maxSpringOuterDiameter?: number | undefined;
  /**
   * By how much the length of the body can be set, apart from the perch; 0 for none. Unit: mm, or in
   * (imperial).
   */
  readonly lengthAdjustment?: number | undefined;
  /** Adjusters of the damping, in words; none if there are none. */
  readonly adjusters?: string | undefined;
  /** At which setting of the adjusters the damper has the forces of the order, in words. */
  readonly adjusterSetting?: string | undefined;
  /** Reservoir, in words; none if there is none. */
  readonly reservoir?: string | undefined;
  /** Who supplies the spring. */
  readonly springSupplier?: string | undefined;
  /** Who supplies the bump stop. */
  readonly bumpStopSupplier?: string | undefined;
  /** Clearance between spring and body, at the radius. Unit: mm, or in (imperial). */
  readonly springClearance?: number | undefined;
  /** By how much lengths may be off. Unit: mm, or in (imperial). */
  readonly lengthTolerance?: number | undefined;
  /** By how much the forces of the damper may be off, as a fraction of 1. Without unit. */
  readonly forceTolerance?: number | undefined;
  /** By how much rates may be off, as a fraction of 1. Without unit. */
  readonly rateTolerance?: number | undefined;
}

/** The two ends of the coilover: mount is the moving one. */
export interface OrderMountsInput {
  /** What one end of the coilover is to be. */
  readonly mount?: MountInput | undefined;
  /** What one end of the coilover is to be. */
  readonly chassis?: MountInput | undefined;
}

/** What one end of the coilover is to be. */
export interface MountInput {
  /**
   * What the end is: an eye, a clevis (also written fork), or a stud; of a strut that is the coilover, how
   * the upright holds it: clamp or weldOn.
   */
  readonly type: 'eye' | 'clevis' | 'stud' | 'clamp' | 'weldOn' | 'fork';
  /** Bore for the bolt; for a stud its thread. Unit: mm, or in (imperial). */
  readonly bore?: number | undefined;
  /**
   * Width over the eye or its spacers: what goes between the cheeks of the bracket. Unit: mm, or in
   * (imperial).
   */
  readonly width?: number | undefined;
  /** Spacers, in words. */
  readonly spacers?: string | undefined;
  /** Pitch of a stud’s thread. Unit: mm, or in (imperial). */
  readonly threadPitch?: number | undefined;
  /** Nut, washers and bushes of a stud, in words. */
  readonly fixing?: string | undefined;
  /** Face of a stud that lengths are taken to, in words: its shoulder, as a rule. */
  readonly referenceFace?: string | undefined;
  /** Diameter of a strut where the upright clamps it. Unit: mm, or in (imperial). */
  readonly clampDiameter?: number | undefined;
  /** Bearing of the end, in words: spherical or bush, and its width. */
  readonly bearing?: string | undefined;
}

/**
 * The coilover as bought. What stands here replaces the same part of limits and sizing and is never derived
 * again; leave out what was not bought.
 */
export interface OrderedFile {
  /** Remarks of yours, a text or a list of texts. They change nothing. */
  readonly notes?: string | readonly string[] | undefined;
  /** Revision of the order, as A: letters and digits, 8 at most. */
  readonly revision?: string | undefined;
  /** Date of the order, as 2026-11-29: year, month, day. */
  readonly date?: string | undefined;
  /** The damper that was bought, by its eye-to-eye lengths. */
  readonly damper?: OrderedDamperInput | undefined;
  /** The main spring that was bought. */
  readonly spring?: OrderedSpringInput | undefined;
  /** The helper or tender spring that was bought. */
  readonly helper?: OrderedHelperInput | undefined;
  /** The bump stop that was bought. */
  readonly bumpStop?: OrderedBumpStopInput | undefined;
  /** The valving that was bought. */
  readonly valving?: ValvingInput | undefined;
  /** The perch, the adjustable spring seat, as it is fitted and set. */
  readonly perch?: OrderedPerchInput | undefined;
}

/** The damper that was bought, by its eye-to-eye lengths. */
export interface OrderedDamperInput {
  /** Eye-to-eye length, fully extended. Unit: mm, or in (imperial). */
  readonly extendedLength: number;
  /** Eye-to-eye length, fully compressed; less than extended. Unit: mm, or in (imperial). */
  readonly compressedLength: number;
}

/** The main spring that was bought. */
export interface OrderedSpringInput {
  /** What you call it. */
  readonly name?: string | undefined;
  /** Rate. Unit: N/mm, or lbf/in (imperial). */
  readonly rate: number;
  /** Length with no load on it. Unit: mm, or in (imperial). */
  readonly freeLength: number;
  /** Length with all coils touching. Unit: mm, or in (imperial). */
  readonly solidLength?: number | undefined;
  /** Minimum permissible length, a little more than solid. Unit: mm, or in (imperial). */
  readonly minLength?: number | undefined;
  /** Inner diameter. Unit: mm, or in (imperial). */
  readonly innerDiameter?: number | undefined;
}

/** The helper or tender spring that was bought. */
export interface OrderedHelperInput {
  /** Rate of the helper or tender spring. Unit: N/mm, or lbf/in (imperial). */
  readonly rate: number;
  /** Free length of the helper or tender spring. Unit: mm, or in (imperial). */
  readonly freeLength: number;
  /** Solid length L_c: all coils touch. Unit: mm, or in (imperial). */
  readonly solidLength: number;
  /** Thickness of the ring between the springs; 0 if left out. Unit: mm, or in (imperial). */
  readonly separatorHeight?: number | undefined;
}

/** The bump stop that was bought. */
export interface OrderedBumpStopInput {
  /** Height with no load on it. Unit: mm, or in (imperial). */
  readonly height: number;
  /** Height at which it compresses no further. Unit: mm, or in (imperial). */
  readonly solidHeight: number;
  /**
   * Force of the bump stop at its compression: rows [compression, force], none negative. Units: mm and N, or
   * in and lbf (imperial).
   */
  readonly table?: readonly (readonly [compression: number, force: number])[] | undefined;
}

/** The valving that was bought. */
export interface ValvingInput {
  /** Low-speed compression damping at the shaft. Unit: N·s/m, or lbf·s/in (imperial). */
  readonly compressionDamping?: number | undefined;
  /** Low-speed rebound damping at the shaft. Unit: N·s/m, or lbf·s/in (imperial). */
  readonly reboundDamping?: number | undefined;
  /** Shaft speed above which the force rises less. Unit: mm/s, or in/s (imperial). */
  readonly kneeSpeed?: number | undefined;
  /**
   * Slope of the force above the knee, as a fraction of the slope below it; 0.5 if left out (common
   * practice). Without unit.
   */
  readonly highSpeedFraction?: number | undefined;
  /**
   * Forces by shaft speed, as from a dynamometer: rows [speed, compression force, rebound force], none
   * negative; the first gives the low-speed damping. Units: mm/s and N, or in/s and lbf (imperial).
   */
  readonly forceTable?:
    | readonly (readonly [speed: number, compression: number, rebound: number])[]
    | undefined;
}

/** The perch, the adjustable spring seat, as it is fitted and set. */
export interface OrderedPerchInput {
  /**
   * Perch setting as it is now: eye-to-eye length minus spring length between its seats. Unit: mm, or in
   * (imperial).
   */
  readonly setting?: number | UncertainNumber | undefined;
  /** The two distances that make up the setting, in place of it. */
  readonly seatDistances?: SeatDistancesInput | undefined;
  /** Perch setting at the left-hand wheel, where the two wheels differ. Unit: mm, or in (imperial). */
  readonly left?: number | undefined;
  /** Perch setting at the right-hand wheel, where the two wheels differ. Unit: mm, or in (imperial). */
  readonly right?: number | undefined;
  /** Smallest setting within the thread. Unit: mm, or in (imperial). */
  readonly min?: number | undefined;
  /** Largest setting within the thread. Unit: mm, or in (imperial). */
  readonly max?: number | undefined;
  /** Travel of the perch per turn. Unit: mm, or in (imperial). */
  readonly threadPitch?: number | undefined;
}

/** The two distances that make up the setting, in place of it. */
export interface SeatDistancesInput {
  /** Distance of the eye at the wheel end from the spring seat beside it. Unit: mm, or in (imperial). */
  readonly mount: number;
  /** Distance of the chassis eye from the spring seat beside it. Unit: mm, or in (imperial). */
  readonly chassis: number;
}

/** What any file says about itself. */
export interface FileFields {
  /** Where an editor finds the description of this file. */
  readonly $schema?: string | undefined;
  /** Version of the file format: 1, also if left out. Without unit. */
  readonly formatVersion?: 1 | undefined;
  /**
   * What the numbers are written in: metric (mm, kg, N, N/mm; taken if left out) or imperial (in, lb, lbf,
   * lbf/in). Angles are in degrees in both.
   */
  readonly units?: 'metric' | 'imperial' | undefined;
  /** Name of the car, for titles. */
  readonly name?: string | undefined;
  /** Remarks of yours, a text or a list of texts. They change nothing. */
  readonly notes?: string | readonly string[] | undefined;
}

/** The search for the points did not converge. */
export interface SurveyNotConvergedCheck {
  /** What it is. */
  readonly code: 'surveyNotConverged';
  /** How the search ended. */
  readonly status: 'stalled' | 'iterationLimit' | 'notFinite';
}

/** A length is likely misread. */
export interface LengthSuspectCheck {
  /** What it is. */
  readonly code: 'lengthSuspect';
  /** Place of the reading in the survey. */
  readonly reading: string;
  /** Points that it was read between. */
  readonly points: readonly string[];
  /** Readings of which one is wrong if this is not. */
  readonly or: readonly string[];
  /** Reading minus what all others say, positive if it is too large. Unit: mm, or in (imperial). */
  readonly error: number;
}

/** An angle is likely misread. */
export interface AngleSuspectCheck {
  /** What it is. */
  readonly code: 'angleSuspect';
  /** Place of the reading in the survey. */
  readonly reading: string;
  /** Points that it was read between. */
  readonly points: readonly string[];
  /** Readings of which one is wrong if this is not. */
  readonly or: readonly string[];
  /** Reading minus what all others say, positive if it is too large. Unit: deg. */
  readonly angleError: number;
  /** Whether 90 degrees minus the reading fits. */
  readonly fitsAsComplement: boolean;
}

/** The fore-aft position of a point is likely wrong. */
export interface ForeAftSuspectCheck {
  /** What it is. */
  readonly code: 'foreAftSuspect';
  /** Point whose x is likely wrong. */
  readonly point: string;
}

/** Points may lie on the other side: a mirror keeps all distances. */
export interface PointsMirroredCheck {
  /** What it is. */
  readonly code: 'pointsMirrored';
  /** Points that may lie mirrored. */
  readonly points: readonly string[];
  /** What to read. */
  readonly read: 'height' | 'lateral';
  /** The point to read it of. */
  readonly of: string;
  /**
   * Where it was taken to be: height above the ground, or outboard from the centreline. Unit: mm, or in
   * (imperial).
   */
  readonly taken: number;
  /** Where it may be, counted alike: up or outboard positive. Unit: mm, or in (imperial). */
  readonly other: number;
}

/** The readings scatter more than their plus-minus allows. */
export interface ReadingsContradictCheck {
  /** What it is. */
  readonly code: 'readingsContradict';
  /** Sum of the squares of residual ÷ standard deviation, never negative. Without unit. */
  readonly chiSquare: number;
  /** Redundant readings, never negative. Without unit. */
  readonly degreesOfFreedom: number;
  /** Probability of differing as much or more, never negative. Without unit. */
  readonly pValue: number;
  /** Scatter ÷ that stated, positive. Without unit. */
  readonly birgeRatio: number;
  /** Factor of the intervals of the points, positive. Without unit. */
  readonly widened: number;
  /** Number of suspected misreadings, never negative. Without unit. */
  readonly suspects: number;
}

/** No reading checks another. */
export interface SurveyUncheckedCheck {
  /** What it is. */
  readonly code: 'surveyUnchecked';
}

/** What a corner of any kind has in a file beside its hardpoints. */
export interface CornerFields {
  /** Remarks of yours, a text or a list of texts. They change nothing. */
  readonly notes?: string | readonly string[] | undefined;
  /**
   * Mass that the spring of this corner carries: the load on the wheel without the unsprung parts. Unit: kg,
   * or lb (imperial).
   */
  readonly sprungMass?: number | undefined;
  /**
   * The anti-roll bar of the axle, by its left end; the right one is the mirror image, or for a bar along the
   * car as right says.
   */
  readonly bar?: AntiRollBarInput | undefined;
  /** The third spring (heave spring) between both wheels of the axle: it only pushes. */
  readonly thirdSpring?: ThirdSpringInput | undefined;
  /** The roll spring between both wheels of the axle: free at design ride height, it pushes and pulls. */
  readonly rollSpring?: RollSpringInput | undefined;
  /** What the coilover of this corner is sized by. Leave out what you do not know. */
  readonly sizing?: CornerSizingFile | undefined;
  /**
   * The coilover as bought. What stands here replaces the same part of limits and sizing and is never derived
   * again; leave out what was not bought.
   */
  readonly ordered?: OrderedFile | undefined;
  /**
   * How the errors of hardpoints hang together, as a survey gives it; coordinates that are not named are
   * independent.
   */
  readonly correlations?: CorrelationsInput | undefined;
  /** What the survey of these points left to look at; the sizing shows it. Take out what is settled. */
  readonly surveyChecks?:
    | readonly (
        | SurveyNotConvergedCheck
        | LengthSuspectCheck
        | AngleSuspectCheck
        | ForeAftSuspectCheck
        | PointsMirroredCheck
        | ReadingsContradictCheck
        | SurveyUncheckedCheck
      )[]
    | undefined;
}

/**
 * The anti-roll bar of the axle, by its left end; the right one is the mirror image, or for a bar along the
 * car as right says.
 */
export interface AntiRollBarInput {
  /** Body of the corner that carries the drop link: lowerArm, upperArm, upright, rocker. */
  readonly on: string;
  /**
   * End of the drop link on that body. Point [y, z]: y outboard from the centreline, z up from the ground.
   * Unit: mm, or in (imperial).
   */
  readonly linkMount: readonly [y: number, z: number];
  /**
   * End of the drop link on the lever of the bar. Point [y, z]: y outboard from the centreline, z up from the
   * ground. Unit: mm, or in (imperial).
   */
  readonly leverEnd: readonly [y: number, z: number];
  /**
   * From the axis of a bar across the car to the end of its lever, which is level at design ride height.
   * Unit: mm, or in (imperial).
   */
  readonly leverLength?: number | undefined;
  /**
   * Axis of a bar along the car, in place of leverLength: its levers turn in the plane of the axle. Point [y,
   * z]: y outboard from the centreline, z up from the ground. Unit: mm, or in (imperial).
   */
  readonly axis?: readonly [y: number, z: number] | undefined;
  /**
   * The right-hand end of a bar along the car, y outboard there too; if left out it has the same linkMount,
   * and its lever on the other side of the axis.
   */
  readonly right?: AntiRollBarEndInput | undefined;
  /**
   * Torque in the bar per angle between its levers, with links, levers and bushes in series; that of roundBar
   * if left out. Unit: N·m/deg, or lbf·ft/deg (imperial).
   */
  readonly torsionalStiffness?: number | undefined;
  /** A round bar or tube in torsion. */
  readonly roundBar?: RoundBarInput | undefined;
}

/**
 * The right-hand end of a bar along the car, y outboard there too; if left out it has the same linkMount, and
 * its lever on the other side of the axis.
 */
export interface AntiRollBarEndInput {
  /** Part of the right-hand corner that carries the drop link; that of the left if left out. */
  readonly on?: string | undefined;
  /**
   * End of the drop link on that part. Point [y, z]: y outboard from the centreline, z up from the ground.
   * Unit: mm, or in (imperial).
   */
  readonly linkMount: readonly [y: number, z: number];
  /**
   * End of the drop link on the right-hand lever. Point [y, z]: y outboard from the centreline, z up from the
   * ground. Unit: mm, or in (imperial).
   */
  readonly leverEnd: readonly [y: number, z: number];
}

/** A round bar or tube in torsion. */
export interface RoundBarInput {
  /** Outer diameter. Unit: mm, or in (imperial). */
  readonly diameter: number;
  /** Inner diameter of a tube; 0 if left out. Unit: mm, or in (imperial). */
  readonly innerDiameter?: number | undefined;
  /** Length in torsion, between the levers. Unit: mm, or in (imperial). */
  readonly length: number;
  /** Shear modulus in N/mm²; that of steel, 79,300, if left out. Without unit. */
  readonly shearModulus?: number | undefined;
}

/** The third spring (heave spring) between both wheels of the axle: it only pushes. */
export interface ThirdSpringInput {
  /** Part of the corner that carries the spring: rocker, lowerArm, upperArm, upright. */
  readonly on: string;
  /**
   * End of the spring on that part. Point [y, z]: y outboard from the centreline, z up from the ground. Unit:
   * mm, or in (imperial).
   */
  readonly mount: readonly [y: number, z: number];
  /**
   * The end of the spring on the right-hand corner, y outboard there too; of a third spring the mirror image
   * if left out.
   */
  readonly right?: SpringEndInput | undefined;
  /** Rate of the spring. Unit: N/mm, or lbf/in (imperial). */
  readonly rate: number;
  /** Force of the spring at design ride height; 0 if left out. Unit: N, or lbf (imperial). */
  readonly preload?: number | undefined;
  /**
   * Length between both ends at which the spring comes loose, in place of preload: less than at design ride
   * height leaves a gap. Unit: mm, or in (imperial).
   */
  readonly freeLength?: number | undefined;
  /** Longest length between both ends. Unit: mm, or in (imperial). */
  readonly extendedLength?: number | undefined;
  /** Shortest length between both ends. Unit: mm, or in (imperial). */
  readonly compressedLength?: number | undefined;
  /**
   * Damping coefficient of the damper beside the spring, mean of compression and rebound; 0 if left out.
   * Unit: N·s/m, or lbf·s/in (imperial).
   */
  readonly damping?: number | undefined;
}

/**
 * The end of the spring on the right-hand corner, y outboard there too; of a third spring the mirror image if
 * left out.
 */
export interface SpringEndInput {
  /** Part of the corner that carries the spring: rocker, lowerArm, upperArm, upright. */
  readonly on: string;
  /**
   * End of the spring on that part. Point [y, z]: y outboard from the centreline, z up from the ground. Unit:
   * mm, or in (imperial).
   */
  readonly mount: readonly [y: number, z: number];
}

/** The roll spring between both wheels of the axle: free at design ride height, it pushes and pulls. */
export interface RollSpringInput {
  /** Part of the corner that carries the spring: rocker, lowerArm, upperArm, upright. */
  readonly on: string;
  /**
   * End of the spring on that part. Point [y, z]: y outboard from the centreline, z up from the ground. Unit:
   * mm, or in (imperial).
   */
  readonly mount: readonly [y: number, z: number];
  /**
   * The end of the spring on the right-hand corner, y outboard there too; of a third spring the mirror image
   * if left out.
   */
  readonly right: SpringEndInput;
  /** Rate of the spring, the same in both directions. Unit: N/mm, or lbf/in (imperial). */
  readonly rate: number;
  /**
   * Damping coefficient of the damper beside the spring, mean of compression and rebound; 0 if left out.
   * Unit: N·s/m, or lbf·s/in (imperial).
   */
  readonly damping?: number | undefined;
}

/**
 * How the errors of hardpoints hang together, as a survey gives it; coordinates that are not named are
 * independent.
 */
export interface CorrelationsInput {
  /**
   * Coordinates of hardpoints by name, as lowerInnerY or shockChassisMountZ; each has a plusMinus at its
   * point.
   */
  readonly coordinates: readonly string[];
  /**
   * A row for each coordinate: its correlations, -1 to 1, with those before it. The first row is empty.
   * Without unit.
   */
  readonly lowerTriangle: readonly (readonly number[])[];
}

/** A corner, seen from the front of the car, left-hand wheel. */
export interface DoubleWishboneCornerInput extends DoubleWishboneInput, CornerFields {
  /** What sort of corner it is: doubleWishbone, taken if left out. */
  readonly kind?: 'doubleWishbone' | undefined;
  /** What ends the travel. Leave out what you do not know. */
  readonly limits?: DoubleWishboneLimits | undefined;
}

/** A corner, seen from the front of the car, left-hand wheel. */
export interface PushrodCornerInput extends PushrodInput, CornerFields {
  /** What sort of corner it is: pushrod, for a coilover worked by a pushrod or pullrod through a rocker. */
  readonly kind: 'pushrod';
  /** What ends the travel. Leave out what you do not know. */
  readonly limits?: PushrodLimits | undefined;
}

/** A corner, seen from the front of the car, left-hand wheel. */
export interface StrutCornerInput extends StrutInput, CornerFields {
  /** What sort of corner it is: strut, for an upright that slides along a strut. */
  readonly kind: 'strut';
  /** What ends the travel. Leave out what you do not know. */
  readonly limits?: StrutLimits | undefined;
}

/** One suspension corner, at ride height. */
export interface DoubleWishboneFile extends FileFields, DoubleWishboneCornerInput {}

/** One suspension corner, at ride height. */
export interface PushrodFile extends FileFields, PushrodCornerInput {}

/** One suspension corner, at ride height. */
export interface StrutFile extends FileFields, StrutCornerInput {}

/** One suspension corner, at ride height. */
export type CornerFile = DoubleWishboneFile | PushrodFile | StrutFile;

/** What a car file has beside its corners. */
export interface CarSizingFile {
  /**
   * The order that this file stands for: its revision and its date stand on it and in its file name. Without
   * them its pages have lines to write them on.
   */
  readonly order?: OrderIssueInput | undefined;
  /** What the car is for: road, hill climb, track ... */
  readonly use?: string | undefined;
  /** What the car weighs: an estimate, a list of its parts, or four scales; and what comes on top. */
  readonly masses?: MassesInput | undefined;
  /** Downforce at one speed; it goes with the square of the speed, at the same balance. */
  readonly downforce?: DownforceInput | undefined;
  /** What the travel must be enough for. */
  readonly travelCases?: TravelCasesInput | undefined;
  /** What is still to be decided, for the report: a list of texts. */
  readonly openQuestions?: readonly string[] | undefined;
}

/**
 * The order that this file stands for: its revision and its date stand on it and in its file name. Without
 * them its pages have lines to write them on.
 */
export interface OrderIssueInput {
  /** Revision of the order, as A: letters and digits, 8 at most. */
  readonly revision: string;
  /** Date of the order, as 2026-11-29: year, month, day. */
  readonly date: string;
}

/** What the car weighs: an estimate, a list of its parts, or four scales; and what comes on top. */
export interface MassesInput {
  /** Remarks of yours, a text or a list of texts. They change nothing. */
  readonly notes?: string | readonly string[] | undefined;
  /** The estimated mass of the whole car, and how it lies. */
  readonly estimate?: EstimateInput | undefined;
  /** The car built up from its parts, wheels and all, in place of an estimate. */
  readonly parts?: readonly LoadInput[] | undefined;
  /** Four scales under the wheels, in place of an estimate. */
  readonly scales?: ScalesInput | undefined;
  /** What comes on top: driver, fuel, luggage. */
  readonly added?: readonly LoadInput[] | undefined;
  /** States in which the car is used: each must have the travel that it requires. */
  readonly states?: readonly LoadStateInput[] | undefined;
  /**
   * Name of the state that design ride height belongs to; if left out, the car with everything in added
   * aboard.
   */
  readonly designState?: string | undefined;
  /** Height of the centre of gravity of the sprung part above the ground. Unit: mm, or in (imperial). */
  readonly sprungCentreOfGravityHeight?: number | UncertainNumber | undefined;
  /** Distance of the axles. Unit: mm, or in (imperial). */
  readonly wheelbase?: number | UncertainNumber | undefined;
}

/** The estimated mass of the whole car, and how it lies. */
export interface EstimateInput {
  /** Mass of the whole car, wheels and all. Unit: kg, or lb (imperial). */
  readonly total: number | UncertainNumber;
  /** How much of it is on the front axle, as a fraction of 1. Without unit. */
  readonly frontFraction: number | UncertainNumber;
  /** How much of it is on the left-hand wheels; half if left out, as a fraction of 1. Without unit. */
  readonly leftFraction?: number | UncertainNumber | undefined;
}

/** Something that weighs on the wheels, by its fractions. */
export interface LoadInput {
  /** What it is, in your words. */
  readonly name: string;
  /** Its mass. Unit: kg, or lb (imperial). */
  readonly mass: number | UncertainNumber;
  /** How much of it is on the front axle, as a fraction of 1. Without unit. */
  readonly frontFraction: number | UncertainNumber;
  /** How much of it is on the left-hand wheels; half if left out, as a fraction of 1. Without unit. */
  readonly leftFraction?: number | UncertainNumber | undefined;
}

/** Four scales under the wheels, in place of an estimate. */
export interface ScalesInput {
  /** Reading under the front left-hand wheel. Unit: kg, or lb (imperial). */
  readonly frontLeft: number | UncertainNumber;
  /** Reading under the front right-hand wheel. Unit: kg, or lb (imperial). */
  readonly frontRight: number | UncertainNumber;
  /** Reading under the rear left-hand wheel. Unit: kg, or lb (imperial). */
  readonly rearLeft: number | UncertainNumber;
  /** Reading under the rear right-hand wheel. Unit: kg, or lb (imperial). */
  readonly rearRight: number | UncertainNumber;
  /**
   * Whether the perches were turned until the car stood at design ride height (reset), or left as they were
   * (untouched).
   */
  readonly perches: 'reset' | 'untouched';
  /**
   * Names of those added loads that were on the car when it stood on the scales; the others are added to the
   * readings.
   */
  readonly aboard?: readonly string[] | undefined;
}

/** A state in which the car is used: what is aboard. */
export interface LoadStateInput {
  /** What you call it, as two up and luggage. */
  readonly name: string;
  /** What is aboard: names of added loads, or loads of its own; [] for the empty car. */
  readonly loads: readonly (string | LoadInput)[];
}

/** Downforce at one speed; it goes with the square of the speed, at the same balance. */
export interface DownforceInput {
  /** Speed at which the force is known. Unit: km/h, or mph (imperial). */
  readonly speed: number | UncertainNumber;
  /** Downforce of the whole car at that speed; negative if it lifts. Unit: N, or lbf (imperial). */
  readonly force: number | UncertainNumber;
  /** How much of it is on the front axle, as a fraction of 1. Without unit. */
  readonly frontFraction: number | UncertainNumber;
  /**
   * Speeds to check; the last is taken as the top speed. Five up to speed if left out. Unit: km/h, or mph
   * (imperial).
   */
  readonly speedsToCheck?: readonly number[] | undefined;
}

/** What the travel must be enough for. */
export interface TravelCasesInput {
  /** Lateral acceleration in a corner, in g; 1 if left out (common practice). Without unit. */
  readonly lateralAcceleration?: number | UncertainNumber | undefined;
  /** Deceleration under braking, in g; 1 if left out (common practice). Without unit. */
  readonly deceleration?: number | UncertainNumber | undefined;
  /**
   * A bump of the road, taken by the wheel alone; 40 mm if left out (common practice). Unit: mm, or in
   * (imperial).
   */
  readonly roadBump?: number | UncertainNumber | undefined;
  /** A dip of the road; 40 mm if left out (common practice). Unit: mm, or in (imperial). */
  readonly roadDip?: number | UncertainNumber | undefined;
  /** Travel kept in reserve at either end; 5 mm if left out (common practice). Unit: mm, or in (imperial). */
  readonly margin?: number | UncertainNumber | undefined;
}

/** A car: its suspension corners at ride height, one for each axle. */
export interface CarFile extends FileFields, CarSizingFile {
  /** The corners of the car, one for each axle. */
  readonly corners: CarCornersInput;
}

/** The corners of the car, one for each axle. */
export interface CarCornersInput {
  /** The front corner. */
  readonly front: DoubleWishboneCornerInput | PushrodCornerInput | StrutCornerInput;
  /** The rear corner. */
  readonly rear?: DoubleWishboneCornerInput | PushrodCornerInput | StrutCornerInput | undefined;
}

/** A survey: readings of the points of a suspension corner on stands. */
export interface SurveyInput extends FileFields {
  /** The points by name. */
  readonly points: { readonly [name: string]: SurveyPointInput };
  /** How far readings may be off that do not say so themselves. */
  readonly plusMinus?: SurveyPlusMinusInput | undefined;
  /** Distances of two points in space, by tape: fore-aft included. */
  readonly distances?: readonly DistanceInput[] | undefined;
  /** Heights above the ground, or above another point. */
  readonly heights?: readonly HeightInput[] | undefined;
  /** Lateral distances from the centreline, or from another point: outboard positive. */
  readonly laterals?: readonly LateralInput[] | undefined;
  /** Inclinations of lines from vertical, seen from the front: top inboard positive. */
  readonly inclinations?: readonly InclinationInput[] | undefined;
  /** Slopes of lines from horizontal, seen from the front: outboard end up positive. */
  readonly slopes?: readonly SlopeInput[] | undefined;
  /** Points that lie on the line through two others, seen from the front. */
  readonly collinear?: readonly CollinearInput[] | undefined;
}

/** A point by how its place is known. */
export interface SurveyPointInput {
  /**
   * First estimate of where it lies, from a rough sketch. Point [y, z]: y outboard from the centreline, z up
   * from the ground. Unit: mm, or in (imperial).
   */
  readonly estimate?: readonly [y: number, z: number] | undefined;
  /**
   * Where it lies, known: what other points are measured from. Point [y, z]: y outboard from the centreline,
   * z up from the ground. Unit: mm, or in (imperial).
   */
  readonly known?: readonly [y: number, z: number] | undefined;
  /** The point lies on the axis through these two, where that pierces the plane at its x. */
  readonly pivotAxis?: readonly [string, string] | undefined;
  /**
   * Fore-aft place, forward of the plane across the wheel centre; 0 if left out. Unit: mm, or in (imperial).
   */
  readonly x?: number | undefined;
}

/** How far readings may be off that do not say so themselves. */
export interface SurveyPlusMinusInput {
  /**
   * How far a distance by tape may be off, to either side, 95 times in 100; 1.5 mm if left out. Unit: mm, or
   * in (imperial).
   */
  readonly tape?: number | undefined;
  /**
   * How far a height, a lateral distance or a point on a line may be off, to either side, 95 times in 100;
   * 1.5 mm if left out. Unit: mm, or in (imperial).
   */
  readonly ruler?: number | undefined;
  /** How far an angle may be off, to either side, 95 times in 100; 0.3 degrees if left out. Unit: deg. */
  readonly angleFinder?: number | undefined;
}

/** A distance of two points in space, by tape. */
export interface DistanceInput {
  /** The two points. */
  readonly between: readonly [string, string];
  /** What was read. Unit: mm, or in (imperial). */
  readonly value: number;
  /**
   * How far this reading may be off, to either side, 95 times in 100; plusMinus.tape if left out. Unit: mm,
   * or in (imperial).
   */
  readonly plusMinus?: number | undefined;
}

/** A height above the ground, or above another point. */
export interface HeightInput {
  /** The point. */
  readonly of: string;
  /** Above which point; the ground if left out. */
  readonly above?: string | undefined;
  /** What was read: up positive. Unit: mm, or in (imperial). */
  readonly value: number;
  /**
   * How far this reading may be off, to either side, 95 times in 100; plusMinus.ruler if left out. Unit: mm,
   * or in (imperial).
   */
  readonly plusMinus?: number | undefined;
}

/** A lateral distance from the centreline, or from another point. */
export interface LateralInput {
  /** The point. */
  readonly of: string;
  /** From which point; the centreline if left out. */
  readonly from?: string | undefined;
  /** What was read: outboard positive. Unit: mm, or in (imperial). */
  readonly value: number;
  /**
   * How far this reading may be off, to either side, 95 times in 100; plusMinus.ruler if left out. Unit: mm,
   * or in (imperial).
   */
  readonly plusMinus?: number | undefined;
}

/** The inclination of a line from vertical. */
export interface InclinationInput {
  /** Two points of the line. */
  readonly line: readonly [string, string];
  /** What was read, from the front: top inboard positive. Unit: deg. */
  readonly value: number;
  /**
   * How far this reading may be off, to either side, 95 times in 100; plusMinus.angleFinder if left out.
   * Unit: deg.
   */
  readonly plusMinus?: number | undefined;
}

/** The slope of a line from horizontal. */
export interface SlopeInput {
  /** Two points of the line. */
  readonly line: readonly [string, string];
  /** What was read, from the front: outboard end up positive. Unit: deg. */
  readonly value: number;
  /**
   * How far this reading may be off, to either side, 95 times in 100; plusMinus.angleFinder if left out.
   * Unit: deg.
   */
  readonly plusMinus?: number | undefined;
}

/** A point on the line through two others. */
export interface CollinearInput {
  /** The point. */
  readonly point: string;
  /** Two points of the line. */
  readonly line: readonly [string, string];
  /**
   * How far this reading may be off, to either side, 95 times in 100; plusMinus.ruler if left out. Unit: mm,
   * or in (imperial).
   */
  readonly plusMinus?: number | undefined;
}
