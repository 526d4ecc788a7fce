export { computeJoint } from './computeJoint.ts';
export { jointTask } from './jointTask.ts';
export { publishedNutFactors, publishedScatter } from './published.ts';
export { readJoint } from './read/index.ts';
