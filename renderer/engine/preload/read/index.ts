export { readJoint, type JointOrigin, type ReadJoint } from './readJoint.ts';
