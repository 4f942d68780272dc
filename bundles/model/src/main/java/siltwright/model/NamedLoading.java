package siltwright.model;

import java.util.Optional;

/**
 * The loading of an element by a law that its file names.
 *
 * @param law id of the law
 * @param loading what the law gives; empty where the file was read without laws, by somebody who
 *     computes nothing with its elements
 */
public record NamedLoading(String law, Optional<Loading> loading) {
  Loading known() {
    return loading.orElseThrow(
        () -> new IllegalStateException("read without the loading law " + law));
  }
}
