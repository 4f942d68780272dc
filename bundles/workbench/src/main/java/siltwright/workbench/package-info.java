/**
 * The contract of views: a {@link siltwright.workbench.View} is a service that opens panes, and a
 * pane acts through its {@link siltwright.workbench.Desk}. The window itself stays inside.
 */
@org.osgi.annotation.bundle.Export
@org.osgi.annotation.versioning.Version("0.1.0")
package siltwright.workbench;
