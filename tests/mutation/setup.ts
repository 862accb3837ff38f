import { configureGlobal, readConfigureGlobal } from 'fast-check';

// That a law fails is enough: no simpler case is looked for.
configureGlobal({ ...readConfigureGlobal(), endOnFailure: true });
