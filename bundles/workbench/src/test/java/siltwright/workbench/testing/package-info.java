/** What the tests of views share; part of no product. */
package siltwright.workbench.testing;
