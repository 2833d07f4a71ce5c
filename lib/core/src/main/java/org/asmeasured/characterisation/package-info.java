/** Tests of a recorder and its converter. */
package org.asmeasured.characterisation;
