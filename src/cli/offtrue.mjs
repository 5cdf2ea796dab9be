#!/usr/bin/env node
// The command: runs what is built, and builds it first when a source is newer.
import { pathToFileURL } from 'node:url';
import { builtCommand, freshenCommand } from '../../.ci/freshness.mjs';

freshenCommand();
await import(pathToFileURL(builtCommand).href);
