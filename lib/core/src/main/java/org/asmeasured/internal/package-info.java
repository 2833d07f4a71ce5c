/** Helpers that are no part of the interface and may change at any time. */
package org.asmeasured.internal;
