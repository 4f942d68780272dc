/**
 * A machine's circuit as a picture with the oil moving through it. {@link
 * siltwright.circuit.view.Plan} says what stands where, {@link siltwright.circuit.view.Course} what
 * the balance computes for a change, {@link siltwright.circuit.view.Readings} what is read at each
 * place at a moment: all plain Java. {@link siltwright.circuit.view.Picture} draws them, {@link
 * siltwright.circuit.view.CircuitPane} is the view.
 */
package siltwright.circuit.view;
