#!/usr/bin/env node
// Committed rather than built, so that installing a clone finds the command before its first build.
import '../dist/main.js';
