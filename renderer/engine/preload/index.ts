export { computeJoint } from './computeJoint.ts';
export { jointTask } from './jointTask.ts';
export { publishedNutFactors, publishedScatter } from './published.ts';
export { readJoint, type JointOrigin, type ReadJoint } from './read/index.ts';
export type { ResolvedJoint, ResolvedScrew, Target, Tightening } from './resolvedJoint.ts';
